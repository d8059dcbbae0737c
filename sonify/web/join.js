'use strict';
{
  const trouble = document.getElementById('trouble');
  const tell = (words) => {
    trouble.textContent = words;
    trouble.hidden = false;
  };

  document.getElementById('form').addEventListener('submit', async (event) => {
    event.preventDefault();
    try {
      const answer = await fetch('/api/join', {
        method: 'POST',
        headers: { 'Content-Type': 'application/json', 'X-Sonify': '1' },
        body: JSON.stringify({ code: document.getElementById('code').value }),
      });
      if (answer.ok) location.reload();
      else tell((await answer.json()).error);
    } catch {
      tell(trouble.dataset.silent);
    }
  });
}
