package design

import (
	"fmt"
	"strconv"
	"strings"

	"github.com/goccy/go-yaml/ast"
)

// Set returns the document text with the value at path replaced by text, or
// added where the document did not have it. Comments, order and spelling of
// everything else stay. An empty text takes the line away, so that the value
// of the template holds again.
//
// Set only rewrites single values; tables and lists are edited in the text.
// It fails when the path is not in the schema, when the value spans several
// lines, or when the rewritten document would differ elsewhere.
func Set(text, path, value string) (string, error) {
	if strings.ContainsAny(value, "\n\r") {
		return "", fmt.Errorf("design: set %s: the value has more than one line", path)
	}
	if err := knownPath(path); err != nil {
		return "", err
	}
	root, faults := parseYAML("", text)
	if faults != nil {
		return "", faults
	}
	eol := "\n"
	if strings.Contains(text, "\r\n") {
		eol = "\r\n"
	}
	lines := strings.Split(text, eol)
	parts := strings.Split(path, ".")
	out, err := setAt(lines, root, parts, value)
	if err != nil {
		return "", fmt.Errorf("design: set %s: %w", path, err)
	}
	result := strings.Join(out, eol)
	if err := sameBut(text, result, path, value); err != nil {
		return "", fmt.Errorf("design: set %s: %w", path, err)
	}
	return result, nil
}

// knownPath reports a path that is not a single value of the schema.
func knownPath(path string) error {
	for _, it := range Walk() {
		if it.Path == path {
			if it.Table {
				return fmt.Errorf("design: set %s: tables and lists are edited in the text", path)
			}
			return nil
		}
	}
	var all []string
	for _, it := range Walk() {
		all = append(all, it.Path)
	}
	msg := fmt.Sprintf("design: set %s: no such value", path)
	if near := nearest(path, all); near != "" {
		msg += "; nearest: " + near
	}
	return fmt.Errorf("%s", msg)
}

func setAt(lines []string, n ast.Node, parts []string, value string) ([]string, error) {
	pairs, ok := entries(n)
	if !ok {
		return nil, fmt.Errorf("the parent is not a mapping")
	}
	if isFlow(n) {
		return nil, fmt.Errorf("the parent is written in braces; edit it in the text")
	}
	indent := 0
	for _, kv := range pairs {
		indent = kv.Key.GetToken().Position.Column - 1
		key, _ := scalar(kv.Key)
		if key != parts[0] {
			continue
		}
		if len(parts) > 1 {
			if isNull(kv.Value) {
				if value == "" {
					return lines, nil
				}
				at := kv.Key.GetToken().Position.Line
				return insert(lines, at, nest(parts[1:], value, indent+2)), nil
			}
			return setAt(lines, kv.Value, parts[1:], value)
		}
		return replaceLine(lines, kv, value)
	}
	if value == "" {
		return lines, nil
	}
	at := lastLine(n)
	if len(pairs) == 0 {
		return nil, fmt.Errorf("the parent is empty")
	}
	return insert(lines, at, nest(parts, value, indent)), nil
}

func isFlow(n ast.Node) bool {
	m, ok := n.(*ast.MappingNode)
	return ok && m.IsFlowStyle
}

// nest returns the lines of a value under new keys.
func nest(parts []string, value string, indent int) []string {
	var out []string
	for i, p := range parts {
		line := strings.Repeat(" ", indent+2*i) + p + ":"
		if i == len(parts)-1 {
			line += " " + quote(value)
		}
		out = append(out, line)
	}
	return out
}

func insert(lines []string, after int, add []string) []string {
	after = min(after, len(lines))
	out := append([]string{}, lines[:after]...)
	out = append(out, add...)
	return append(out, lines[after:]...)
}

// replaceLine rewrites the value of a key on its own line and keeps the
// comment behind it.
func replaceLine(lines []string, kv *ast.MappingValueNode, value string) ([]string, error) {
	at := kv.Key.GetToken().Position.Line
	if lastLine(kv) != at {
		return nil, fmt.Errorf("the value spans several lines; edit it in the text")
	}
	out := append([]string{}, lines...)
	if value == "" {
		return append(out[:at-1], out[at:]...), nil
	}
	line := []rune(lines[at-1])
	colon := kv.GetToken().Position.Column - 1 // the mapping token is the colon
	if colon >= len(line) || line[colon] != ':' {
		return nil, fmt.Errorf("the colon is not where it should be")
	}
	comment := trailingComment(string(line[colon+1:]))
	text := string(line[:colon+1]) + " " + quote(value)
	if comment != "" {
		text += " " + comment
	}
	out[at-1] = text
	return out, nil
}

// trailingComment returns the comment at the end of a value, with the "#".
func trailingComment(s string) string {
	var q rune
	prev := ' '
	for i, r := range s {
		switch {
		case q != 0:
			if r == q {
				q = 0
			}
		case (r == '"' || r == '\'') && strings.TrimSpace(s[:i]) == "":
			q = r
		case r == '#' && (prev == ' ' || prev == '\t'):
			return s[i:]
		}
		prev = r
	}
	return ""
}

// lastLine returns the last line that a node takes.
func lastLine(n ast.Node) int {
	last := 0
	visit := func(m ast.Node) {
		if m == nil {
			return
		}
		tk := m.GetToken()
		if tk == nil || tk.Position == nil {
			return
		}
		l := tk.Position.Line
		if lit, ok := m.(*ast.LiteralNode); ok && lit.Value != nil {
			l += strings.Count(lit.Value.GetToken().Origin, "\n")
		} else if s, ok := m.(*ast.StringNode); ok {
			l += strings.Count(strings.TrimRight(s.GetToken().Origin, "\n\r "), "\n") - strings.Count(leading(s.GetToken().Origin), "\n")
		}
		last = max(last, l)
		if seq, ok := m.(*ast.SequenceNode); ok && seq.End != nil {
			last = max(last, seq.End.Position.Line)
		}
		if mp, ok := m.(*ast.MappingNode); ok && mp.End != nil {
			last = max(last, mp.End.Position.Line)
		}
	}
	ast.Walk(visitor(visit), n)
	return last
}

func leading(s string) string { return s[:len(s)-len(strings.TrimLeft(s, " \n\r\t"))] }

type visitor func(ast.Node)

func (v visitor) Visit(n ast.Node) ast.Visitor {
	if _, ok := n.(*ast.CommentGroupNode); ok {
		return nil
	}
	v(n)
	return v
}

// quote writes a value so that YAML reads it back as the same text.
func quote(s string) string {
	plain := s != "" && strings.TrimSpace(s) == s && !strings.ContainsAny(s, "#\"'\\{}[]&*!|>%@`,") && !strings.Contains(s, ": ") && !strings.HasSuffix(s, ":") && !strings.HasPrefix(s, "- ") && !strings.HasPrefix(s, "? ") && s != "-" && s != "~" && s != "null"
	if strings.HasSuffix(s, "%") && !strings.ContainsAny(s[:len(s)-1], "#\"'\\{}[]&*!|>%@`,:") {
		plain = strings.TrimSpace(s) == s
	}
	if plain {
		return s
	}
	return strconv.Quote(s)
}

// sameBut checks that two documents hold the same values but for one path.
func sameBut(before, after, path, value string) error {
	a, fa := flat(before)
	b, fb := flat(after)
	if fa != nil {
		return fa
	}
	if fb != nil {
		return fmt.Errorf("the rewritten document is not readable: %w", fb)
	}
	if got, ok := b[path]; value == "" && ok || value != "" && got != value {
		return fmt.Errorf("the rewritten document holds %q", got)
	}
	delete(a, path)
	delete(b, path)
	if len(a) != len(b) {
		return fmt.Errorf("the rewritten document differs elsewhere")
	}
	for k, v := range a {
		if b[k] != v {
			return fmt.Errorf("the rewritten document differs at %s", k)
		}
	}
	return nil
}

// flat returns every single value of a document by path.
func flat(text string) (map[string]string, error) {
	root, faults := parseYAML("", text)
	if faults != nil {
		return nil, faults
	}
	out := map[string]string{}
	var walk func(n ast.Node, path string, depth int)
	walk = func(n ast.Node, path string, depth int) {
		if depth > maxDepth {
			return
		}
		if pairs, ok := entries(n); ok {
			for _, kv := range pairs {
				key, _ := scalar(kv.Key)
				walk(kv.Value, join(path, key), depth+1)
			}
			return
		}
		if seq, ok := n.(*ast.SequenceNode); ok {
			for i, v := range seq.Values {
				walk(v, fmt.Sprintf("%s[%d]", path, i), depth+1)
			}
			return
		}
		if text, ok := scalar(n); ok {
			out[path] = text
		}
	}
	walk(root, "", 0)
	return out, nil
}
