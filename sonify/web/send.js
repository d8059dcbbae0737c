'use strict';
{
  const form = document.getElementById('form');
  const trouble = document.getElementById('trouble');
  const button = form.querySelector('button');
  const tell = (words) => {
    trouble.textContent = words;
    trouble.hidden = false;
  };

  form.addEventListener('submit', async (event) => {
    event.preventDefault();
    const [file] = document.getElementById('file').files;
    if (!file) return;
    button.disabled = true;
    tell(form.dataset.sending);
    try {
      const answer = await fetch(`/api/sent-recording/file?name=${encodeURIComponent(file.name)}`, {
        method: 'POST',
        headers: { 'Content-Type': 'application/octet-stream', 'X-Sonify': '1' },
        body: file,
      });
      tell(answer.ok ? form.dataset.sent : (await answer.json()).error);
    } catch {
      tell(trouble.dataset.silent);
    }
    button.disabled = false;
  });
}
