package yaml

import "strings"

// noColon explains a line that should have been key: value.
func (p *parser) noColon(off int, l line) {
	text := p.valid(off, l.end)
	message, want := colonFault(text)
	p.fault(off, text, want, "%s", message)
}

// colonFault says why a line is no key: value, and what it should be.
func colonFault(text string) (message, want string) {
	want = "key: value"
	k, v, ok := strings.Cut(text, "=")
	switch i := strings.IndexByte(text, ':'); {
	case strings.IndexByte("\"'", text[0]) >= 0:
		return "a quoted text without a colon behind it", want
	case strings.ContainsRune(text, '\u00a0'):
		return "a no-break space stands where a plain space belongs", want
	case i > 0 && i+1 < len(text):
		return "no space behind the colon", strings.TrimSpace(text[:i]) + ": " + strings.TrimSpace(text[i+1:])
	case ok:
		return "an equals sign where a colon belongs", strings.TrimSpace(k) + ": " + strings.TrimSpace(v)
	}
	return "no colon on this line", want
}

// NotMapping explains, line by line, a plain text that should have been the
// key: value lines of a section.
func NotMapping(text string, n *Node) []Fault {
	var out []Fault
	at := n.Place
	start := strings.LastIndexByte(text[:n.Start], '\n') + 1
	for i, raw := range strings.Split(text[start:n.End], "\n") {
		line := strings.TrimRight(strings.TrimLeft(raw, " \t"), " \t\r")
		if i == 0 {
			line = strings.ToValidUTF8(text[n.Start:min(start+len(raw), n.End)], "\ufffd")
			line = strings.TrimRight(line, " \t\r")
		} else {
			at = Place{at.Line + 1, len(raw) - len(strings.TrimLeft(raw, " \t")) + 1}
		}
		line = strings.ToValidUTF8(line, "\ufffd")
		if line == "" {
			continue
		}
		message, want := colonFault(line)
		out = append(out, Fault{Place: at, Text: line, Message: message, Expected: want})
	}
	return out
}
