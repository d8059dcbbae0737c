// The listening check: clips of the piece, and the answers only when they are asked for.

import { find, findAll, findIn, phrase, setState, setText } from './screen.js';
/** @import { Shared } from './shapes.js' */

export class ListeningView {
  /** @param {Shared} shared */
  constructor({ player, clock, data }) {
    this.player = player;
    this.clock = clock;
    this.items = data.listening;
    this.questions = findAll('.question', HTMLElement);
    this.now = 0;
    find('question-back').addEventListener('click', () => this.go(this.now - 1));
    find('question-on').addEventListener('click', () => this.go(this.now + 1));
    for (const [k, question] of this.questions.entries()) {
      for (const button of findAll('.clip', HTMLButtonElement, question)) {
        button.addEventListener('click', () => this.playOrStop(k, Number(button.dataset.clip)));
      }
      findIn(question, '.show-answer').addEventListener('click', () => this.turnAnswer(k));
    }
    player.addEventListener('change', () => this.show());
  }

  /** @param {number} to */
  go(to) {
    this.player.stopClip();
    this.now = Math.min(Math.max(to, 0), this.items.length - 1);
    this.show();
    findIn(this.questions[this.now], 'h3', HTMLElement).focus({ preventScroll: true });
  }

  playOrStop(question = this.now, clip = 0) {
    const { player, clock } = this;
    const same = player.clip?.question === question && player.clip.number === clip;
    player.stopClip();
    if (same) return;
    const item = this.items[question];
    const { bar, after } = item.clips[clip];
    const only = this.questions[question].querySelector('.only:checked') !== null;
    player.playClip({
      question,
      number: clip,
      fromS: clock.startOfBar(bar),
      toS: clock.startOfBar(after),
      alone: only ? item.group : null,
    });
  }

  /** @param {number} k */
  turnAnswer(k) {
    const question = this.questions[k];
    const button = findIn(question, '.show-answer');
    const shown = button.getAttribute('aria-expanded') === 'true';
    setState(button, 'aria-expanded', String(!shown));
    setText(button, shown ? phrase('script-show-the-answer') : phrase('script-hide-the-answer'));
    const { choices, answer, why } = this.items[k];
    const told = [phrase('script-the-answer', { words: choices[answer].words, why }), this.handsTold(question, answer)];
    setText(findIn(question, '.answer'), shown ? '' : told.filter(Boolean).join(' '));
    for (const [n, card] of findAll('.choice-card', HTMLElement, question).entries()) {
      const verdict = findIn(card, '.verdict', HTMLElement);
      const chosen = findIn(card, 'input', HTMLInputElement).checked;
      verdict.hidden = shown || !(n === answer || chosen);
      const right = chosen ? phrase('script-well-heard') : phrase('script-this-one');
      setText(verdict, n === answer ? right : phrase('script-not-this-one'));
    }
  }

  // How many of the class raised their hands for the answer, "" where nobody counted.
  /** @param {HTMLElement} question @param {number} answer */
  handsTold(question, answer) {
    const hands = findAll('.hand', HTMLInputElement, question).map((field) => Math.max(Math.round(field.valueAsNumber) || 0, 0));
    const all = hands.reduce((sum, each) => sum + each, 0);
    if (!all) return '';
    const right = hands[answer];
    return phrase('script-hands-told', { right, all, share: right === all ? 'all' : 2 * right > all ? 'most' : 'few' });
  }

  show() {
    const { player } = this;
    for (const [k, question] of this.questions.entries()) {
      question.hidden = k !== this.now;
      for (const button of findAll('.clip', HTMLButtonElement, question)) {
        const playing = player.clip?.question === k && player.clip.number === Number(button.dataset.clip);
        setState(button, 'data-playing', String(playing));
        setText(findIn(button, '.words'), playing ? phrase('script-stop-clip', { name: button.dataset.name ?? '' }) : phrase('script-play-clip', { name: button.dataset.name ?? '' }));
      }
    }
    setText(find('question-place'), phrase('script-question-of', { it: this.now + 1, items: this.items.length }));
    find('question-back', HTMLButtonElement).disabled = this.now === 0;
    find('question-on', HTMLButtonElement).disabled = this.now === this.items.length - 1;
  }
}
