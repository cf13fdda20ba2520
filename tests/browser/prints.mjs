// What is printed, kept as it is laid: no paper and no dialog.

/** Keeps what each print lays: whether it stands alone, and of every page its width, boxes, strips of wall and words. */
export async function printer(page) {
  await page.evaluate(() => {
    window.prints = [];
    window.print = () => {
      window.dispatchEvent(new Event('beforeprint'));
      const host = document.querySelector('#print-sheets');
      const pages = [...(host?.shadowRoot.querySelectorAll('svg[role=img]') ?? [])];
      const count = (page, what) => page.querySelectorAll(what).length;
      const read = (page) => ({
        width: page.getAttribute('width'),
        boxes: count(page, '.tick-box'),
        strips: count(page, '.sheet-strip'),
        words: page.textContent,
      });
      window.prints.push({ alone: host?.className, pages: pages.map(read) });
      window.dispatchEvent(new Event('afterprint'));
    };
  });
}

/** What is printed by that act. */
export async function printed(page, act, timeout = 30_000) {
  const before = await page.evaluate(() => window.prints.length);
  await act();
  await page.waitForFunction((n) => window.prints.length > n, before, { timeout });
  return page.evaluate(() => window.prints.at(-1));
}
