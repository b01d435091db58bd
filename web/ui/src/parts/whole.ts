// Text that is cut for want of room: the whole of it on pointing, and on focus for
// whoever has only keys. A screen reader reads the whole text anyway.
import type { Attachment } from 'svelte/attachments';

const gap = 4; // px between the text and the whole of it

const cut = (node: Element) =>
  node.clientWidth > 0 &&
  (node.scrollWidth > node.clientWidth + 1 || node.scrollHeight > node.clientHeight + 3);

// One observer for all texts: each of them is measured before one is written to,
// so that the page is laid out once and not once for each text. It speaks first
// when a text gets its first size.
const marks = new WeakMap<Element, (cut: boolean) => void>();
const watch = new ResizeObserver((seen) => {
  const found = seen.map(({ target }) => cut(target));
  seen.forEach(({ target }, i) => marks.get(target)?.(found[i]!));
});

/**
 * Makes a cut text reachable: title, a stop for Tab while it is cut, and the whole
 * text under it while it has the focus. What can take the focus already keeps its
 * own stop.
 */
export function whole(text: string): Attachment<HTMLElement> {
  return (node) => {
    const own = node.getAttribute('tabindex');
    const stops = node.matches('a, button, select, input');
    let shown: HTMLElement | undefined;

    function mark(isCut: boolean): void {
      if (isCut) {
        node.title = text;
        if (!stops) node.tabIndex = 0;
        return;
      }
      node.removeAttribute('title');
      if (!stops && document.activeElement !== node) {
        if (own === null) node.removeAttribute('tabindex');
        else node.setAttribute('tabindex', own);
      }
      hide();
    }

    function show(): void {
      if (shown || !cut(node) || !node.matches(':focus-visible')) return;
      const at = node.getBoundingClientRect();
      shown = document.createElement('div');
      shown.className = 'whole';
      shown.setAttribute('aria-hidden', 'true'); // it is the text of the element itself
      shown.textContent = text;
      shown.style.top = `${at.bottom + gap}px`;
      (node.closest('dialog') ?? document.body).append(shown);
      shown.style.left = `${Math.max(gap, Math.min(at.left, innerWidth - shown.offsetWidth - gap))}px`;
    }

    function hide(): void {
      shown?.remove();
      shown = undefined;
    }

    const escaped = (e: KeyboardEvent) => e.key === 'Escape' && hide();
    marks.set(node, mark);
    watch.observe(node);
    node.addEventListener('focus', show);
    node.addEventListener('blur', hide);
    node.addEventListener('keydown', escaped);
    return () => {
      marks.delete(node);
      watch.unobserve(node);
      hide();
      node.removeEventListener('focus', show);
      node.removeEventListener('blur', hide);
      node.removeEventListener('keydown', escaped);
    };
  };
}
