// How long the page waits for the next word of the reader, or for the server, ms.
export const gentle = 12; // to wait for the next keystroke while an answer is under way
export const typing = 120; // to wait for the next keystroke in the text of the design
export const growing = 350; // while the typed unit could still become another
export const faulty = 4000; // before the first try after a fault of the server; each later one waits twice as long
export const longest = 60_000; // between two of those
export const again = 2000; // between tries while the server does not answer
