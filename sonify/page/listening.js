// The listening check: clips of the piece, and the answers only when they are asked for.

import { find, phrase, setState, setText } from './screen.js';

export class ListeningView {
  constructor({ player, clock, data, say }) {
    Object.assign(this, { player, clock, items: data.listening, say });
    this.questions = [...document.querySelectorAll('.question')];
    this.now = 0;
    find('question-back').addEventListener('click', () => this.go(this.now - 1));
    find('question-on').addEventListener('click', () => this.go(this.now + 1));
    for (const [k, question] of this.questions.entries()) {
      for (const button of question.querySelectorAll('.clip')) {
        button.addEventListener('click', () => this.playOrStop(k, Number(button.dataset.clip)));
      }
      question.querySelector('.show-answer').addEventListener('click', () => this.turnAnswer(k));
    }
    player.addEventListener('change', () => this.show());
  }

  go(to) {
    this.player.stopClip();
    this.now = Math.min(Math.max(to, 0), this.items.length - 1);
    this.show();
    this.questions[this.now].querySelector('h3').focus({ preventScroll: true });
  }

  playOrStop(question = this.now, clip = 0) {
    const { player, clock } = this;
    const same = player.clip?.question === question && player.clip.number === clip;
    player.stopClip();
    if (same) return;
    const item = this.items[question];
    const { bar, after } = item.clips[clip];
    const only = this.questions[question].querySelector('.only')?.checked;
    player.playClip({
      question,
      number: clip,
      fromS: clock.startOfBar(bar),
      toS: clock.startOfBar(after),
      alone: only ? item.group : null,
    });
  }

  turnAnswer(k) {
    const question = this.questions[k];
    const button = question.querySelector('.show-answer');
    const shown = button.getAttribute('aria-expanded') === 'true';
    setState(button, 'aria-expanded', String(!shown));
    setText(button, shown ? phrase('script-show-the-answer') : phrase('script-hide-the-answer'));
    const { choices, answer, why } = this.items[k];
    setText(question.querySelector('.answer'), shown ? '' : phrase('script-the-answer', { words: choices[answer].words, why }));
    for (const [n, card] of [...question.querySelectorAll('.choice-card')].entries()) {
      const verdict = card.querySelector('.verdict');
      const chosen = card.querySelector('input').checked;
      verdict.hidden = shown || !(n === answer || chosen);
      setText(verdict, n === answer ? phrase('script-this-one') : phrase('script-not-this-one'));
    }
  }

  show() {
    const { player } = this;
    for (const [k, question] of this.questions.entries()) {
      question.hidden = k !== this.now;
      for (const button of question.querySelectorAll('.clip')) {
        const playing = player.clip?.question === k && player.clip.number === Number(button.dataset.clip);
        setState(button, 'data-playing', String(playing));
        setText(button.querySelector('.words'), `${playing ? 'Stop' : 'Play'} ${button.dataset.name}`);
      }
    }
    setText(find('question-place'), phrase('script-question-of', { it: this.now + 1, items: this.items.length }));
    find('question-back').disabled = this.now === 0;
    find('question-on').disabled = this.now === this.items.length - 1;
  }
}
