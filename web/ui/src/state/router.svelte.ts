// The page's addresses: #/ the designs, #/new a new one, #/design/NAME one of them, #/checks, #/cards.

export type Route =
  | { view: 'designs'; fresh?: boolean }
  | { view: 'design'; name: string }
  | { view: 'checks' }
  | { view: 'cards' };

export function parse(hash: string): Route {
  const [view, ...rest] = hash.replace(/^#\/?/, '').split('/');
  if (view === 'new') return { view: 'designs', fresh: true };
  if (view === 'cards') return { view: 'cards' };
  if (view === 'checks') return { view: 'checks' };
  if (view === 'design' && rest.join('') !== '') {
    try {
      return { view: 'design', name: decodeURIComponent(rest.join('/')) };
    } catch {
      return { view: 'designs' }; // not a name that any link of this page makes
    }
  }
  return { view: 'designs' };
}

export const toDesigns = '#/';
export const toNew = '#/new';
export const toCards = '#/cards';
export const toChecks = '#/checks';
export const toDesign = (name: string) => `#/design/${encodeURIComponent(name)}`;

class Router {
  route = $state.raw<Route>(parse(location.hash));

  constructor() {
    addEventListener('hashchange', () => (this.route = parse(location.hash)));
  }
}

export const router = new Router();
