// The keys of the workbench.

export interface KeyDeeds {
  undo: () => void;
  redo: () => void;
  save: () => void;
  run: () => void;
  seek: () => void;
  keys: () => void;
  shut: (() => void) | null; // the panel that Escape closes
}

/** Moves the focus to the next part of the page, or the one before. */
function nextRegion(back: boolean): void {
  const all = [...document.querySelectorAll<HTMLElement>('[data-region]')];
  const now = all.findIndex((r) => r.contains(document.activeElement));
  all.at((now + (back ? -1 : 1) + all.length) % all.length)?.focus();
}

/** Does what a key stands for; a dialog keeps its keys to itself. */
export function keyed(event: KeyboardEvent, deeds: KeyDeeds): void {
  if (document.querySelector('dialog[open]')) return;
  const control = event.ctrlKey || event.metaKey;
  const letter = event.key.toLowerCase();
  const typing = (event.target as HTMLElement).matches(
    'input:not([type=range], [type=radio]), select, textarea',
  );
  if (control && letter === 'z') {
    if (event.shiftKey) deeds.redo();
    else deeds.undo();
  } else if (control && letter === 'y') deeds.redo();
  else if (control && letter === 's') deeds.save();
  else if (control && event.key === 'Enter') deeds.run();
  else if (event.key === 'F6') nextRegion(event.shiftKey);
  else if (event.key === 'Escape' && deeds.shut) deeds.shut();
  else if (!typing && !control && event.key === '/') deeds.seek();
  else if (!typing && !control && event.key === '?') deeds.keys();
  else return;
  event.preventDefault();
}
