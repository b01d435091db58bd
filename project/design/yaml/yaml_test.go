package yaml

import (
	"fmt"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// Faults are told with place, all in one pass, and what follows is read.
func TestFaults(t *testing.T) {
	for _, c := range []struct {
		text string
		want []string
		read string // key that is read in spite of the faults
	}{
		{"a: 1\n\tb: 2\nc: 3\n", []string{"2:1 a tab in the indentation", "2:2 this line is indented under line 1, which has a value already"}, "c"},
		{"a:\n\tb: 2\nc: 3\n", []string{"2:1 a tab in the indentation"}, "c"},
		{"a: b: c\nd: 1\n", []string{"1:5 a second colon on this line"}, "d"},
		{"a: 1\n  b: 2\nc: 3\n", []string{"2:3 this line is indented under line 1, which has a value already"}, "c"},
		{"a:\n  b: 1\n    c: 2\n d: 3\ne: 4\n", []string{"3:5 this line is indented under line 2, which has a value already", "4:2 this line is indented by 1 space, its neighbours above by 0"}, "e"},
		{"a: [1, 2\nb: 3\n", []string{"1:4 the bracket is not closed"}, "b"},
		{"a: [1,\n  2\n", []string{"1:4 the bracket is not closed"}, ""},
		{"a: {b: 1\nc: 3\n", []string{"1:4 the bracket is not closed"}, "c"},
		{"a: [1, 2] x\nb: 3\n", []string{"1:11 text behind the closing bracket"}, "b"},
		{"a: [1, , 2]\nb: 3\n", []string{"1:8 no value before ,"}, "b"},
		{"a: {b 1, : 2}\nb: 3\n", []string{"1:10 a plain text does not begin with :"}, "b"},
		{"a: {b:1}\nb: 3\n", []string{"1:5 no space behind the colon"}, "b"},
		{"a: {b: 1 c: 2}\nb: 3\n", []string{"1:11 a second colon in one entry"}, "b"},
		{"a: [b: 1]\nb: 3\n", []string{"1:6 a colon inside square brackets"}, "b"},
		{"a: ['x' 'y']\nb: 3\n", []string{"1:9 no comma before this value"}, "b"},
		{"a: ]\nb: 3\n", []string{"1:4 ] without an opening bracket"}, "b"},
		{"a: 'x\nb: 3\n", []string{"1:4 the quote is not closed"}, "b"},
		{"a: \"x\nb: 3\n", []string{"1:4 the quote is not closed"}, "b"},
		{"a: \"x\" y\nb: 3\n", []string{"1:8 text behind the closing quote"}, "b"},
		{"a: \"\\q\\u12\"\nb: 3\n", []string{"1:5 unknown escape \\q in double quotes", "1:7 unknown escape \\u in double quotes"}, "b"},
		{"a: &x 1\nb: *x\nc: !t 2\nd: 3\n", []string{"1:4 anchors, aliases and tags are not used in a design", "2:4 anchors, aliases and tags are not used in a design", "3:4 anchors, aliases and tags are not used in a design"}, "d"},
		{"<<: 1\n&a b: 2\nc: 3\n", []string{"1:1 merge keys are not used in a design", "2:1 anchors, aliases and tags are not used in a design"}, "c"},
		{"a: [&x 1]\nb: {<<: x}\nc: 3\n", []string{"1:5 anchors, aliases and tags are not used in a design", "2:5 merge keys are not used in a design"}, "c"},
		{"a 1\nb: 2\nc:3\nd=4\n'e'\nf: 5\n", []string{"1:1 no colon on this line", "3:1 no space behind the colon", "4:1 an equals sign where a colon belongs", "5:1 a quoted text without a colon behind it"}, "f"},
		{"a: 1\n- b\nc: 3\n", []string{"2:1 a list entry among key: value lines"}, "c"},
		{"a: - b\nc: 3\n", []string{"1:4 a list begins behind the colon"}, "c"},
		{"? a\n: b\nc: 3\n", []string{"1:1 long keys are not used in a design", "2:1 no key before the colon"}, "c"},
		{"a: ? b\nc: 3\n", []string{"1:4 long keys are not used in a design"}, "c"},
		{"a: %x\nb: @x\nc: `x\nd: 3\n", []string{"1:4 a plain text does not begin with %", "2:4 a plain text does not begin with @", "3:4 a plain text does not begin with `"}, "d"},
		{"%a: 1\n", []string{"1:1 directives are not used in a design"}, ""},
		{"%TAG x\n---\na: 1\n", []string{"1:1 directives are not used in a design"}, "a"},
		{"--- a: 1\nb: 2\n", []string{"1:5 text behind ---"}, "b"},
		{"a: 1\n---\nb: 2\n", []string{"3:1 the file holds more than one document"}, "a"},
		{"a: 1\n...\nb: 2\n", []string{"3:1 the file holds more than one document"}, "a"},
		{"a: 1\n--- b\n", []string{"2:1 the file holds more than one document"}, "a"},
		{"  a: 1\nb: 2\n", []string{"2:1 this line is indented less than the first one"}, "a"},
		{"- a\nb: 1\n", []string{"2:1 this line is indented less than the first one"}[:0], ""},
		{"a: | x\n  y\nb: 2\n", []string{"1:6 text behind |"}, "b"},
		{"a: |\n\n     \n  y\nb: 2\n", []string{"4:3 a blank line above this one is indented deeper"}, "b"},
		{"a: x\x01y\rz\nb: \xff\n", []string{"1:5 control character U+0001", "1:7 a carriage return that ends no line", "2:4 byte 0xFF is not UTF-8"}, "b"},
		{"µ°: \"½\" x\nb: 1\n", []string{"1:9 text behind the closing quote"}, "b"},
		{"\ufeffa: [\n", []string{"1:4 the bracket is not closed"}, ""},
		{"\u00a0a: 1\nb: 2\n", []string{"1:1 a no-break space stands where a plain space belongs"}, "b"},
		{"a: 1\r\nb 2\r\nc: 3\r\n", []string{"2:1 no colon on this line"}, "c"},
		{"\x00\x01", []string{"1:1 this is not a text file"}, ""},
	} {
		root, faults := Parse(c.text)
		got := []string{}
		for _, f := range faults {
			got = append(got, fmt.Sprintf("%d:%d %s", f.Line, f.Column, f.Message))
		}
		if len(c.want) == 0 {
			if len(got) == 0 {
				t.Errorf("%q has no fault", c.text)
			}
			continue
		}
		if diff := cmp.Diff(c.want, got); diff != "" {
			t.Errorf("%q (-want +got):\n%s", c.text, diff)
		}
		if _, ok := root.Get(c.read); c.read != "" && !ok {
			t.Errorf("%q: %s is not read", c.text, c.read)
		}
	}
}

// Nodes know the bytes they stand on.
func TestPlaces(t *testing.T) {
	text := "µ: \"x y\" # c\nb:\n  - [ 1 mm , {k: 'v'} ]\n  - |\n    long\n    text\nc:\n"
	root, faults := Parse(text)
	if len(faults) > 0 {
		t.Fatal(faults)
	}
	value := func(key string) *Node { n, _ := root.Get(key); return n }
	flow := value("b").Items[0]
	for _, c := range []struct {
		n     *Node
		piece string
		place Place
	}{
		{root.Pairs[0].Key, "µ", Place{1, 1}},
		{value("µ"), `"x y"`, Place{1, 4}},
		{flow, "[ 1 mm , {k: 'v'} ]", Place{3, 5}},
		{flow.Items[0], "1 mm", Place{3, 7}},
		{flow.Items[1], "{k: 'v'}", Place{3, 14}},
		{flow.Items[1].Pairs[0].Value, "'v'", Place{3, 18}},
		{value("b").Items[1], "|\n    long\n    text", Place{4, 5}},
		{value("c"), "", Place{7, 3}},
	} {
		if got := text[c.n.Start:c.n.End]; got != c.piece || c.n.Place != c.place {
			t.Errorf("%q at %v, want %q at %v", got, c.n.Place, c.piece, c.place)
		}
	}
}

// Time and depth are bounded for texts made to hurt.
func TestHurtful(t *testing.T) {
	const n = 200_000
	for name, text := range map[string]string{
		"brackets":      strings.Repeat("[", n),
		"braces":        strings.Repeat("{a: ", n),
		"dashes":        strings.Repeat("- ", n),
		"keys":          strings.Repeat("a: ", n),
		"one line":      "a: [" + strings.Repeat("1, ", n) + "1]",
		"many lines":    strings.Repeat("a: 1\n", n),
		"open quotes":   strings.Repeat("a: \"\n", n),
		"deep quotes":   "a: \"\n" + strings.Repeat(" x\n", n),
		"many deep":     strings.Repeat("a: \"\n"+strings.Repeat(" x\n", 40), n/400),
		"comments":      strings.Repeat("# c\n", n) + "a: 1",
		"blank lines":   "a:\n" + strings.Repeat("\n", n) + "b: 1",
		"plain lines":   "a: x\n" + strings.Repeat(" x\n", n),
		"no colons":     strings.Repeat("a\n", n),
		"stairs":        stairs(600),
		"lists":         strings.Repeat("-\n", n),
		"wide letters":  "a: [" + strings.Repeat("µ, ", n) + "1]",
		"bad bytes":     strings.Repeat("\xff", n),
		"tabs":          strings.Repeat("\t", n) + "a",
		"open brackets": strings.Repeat("a: [\n", n),
		"literals":      strings.Repeat("a: |\n b\n", n),
	} {
		root, faults := Parse(text)
		if root == nil && len(faults) == 0 {
			t.Errorf("%s: nothing", name)
		}
		if len(faults) > maxFaults+25 {
			t.Errorf("%s: %d faults", name, len(faults))
		}
	}
}

func stairs(n int) string {
	var b strings.Builder
	for i := range n {
		b.WriteString(strings.Repeat(" ", i) + "a:\n")
	}
	return b.String()
}

// FuzzParse: no panic, nodes in order inside the text, plain texts as they
// stand.
func FuzzParse(f *testing.F) {
	for _, s := range []string{
		"a: 1\nb:\n  - c: [1, 'x']\n  - {d: \"e\"}\nf: |\n  x\n  y\ng: >-\n a\n b\n", "- a\n- b: c\n  d: e\n", "a: 'x\n  y'\n# c\nb: z # d\n", "---\na: x\n  y\n...\n",
		"a: \"x\\\n  y\"\n", "\ufeffµ: ½\r\n", "a:\n- b\n-\n  - c\n", "{a: [b, {c: d}], 'e': }",
	} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		root, faults := Parse(text)
		lines := strings.Count(text, "\n") + 1
		for _, x := range faults {
			if x.Line < 1 || x.Line > lines || x.Column < 1 || x.Message == "" {
				t.Errorf("fault without place: %+v", x)
			}
		}
		if root == nil {
			return
		}
		var walk func(n *Node, from, to int)
		walk = func(n *Node, from, to int) {
			if n.Start < from || n.End < n.Start || n.End > to {
				t.Fatalf("node %q at %d..%d outside %d..%d", n.Text, n.Start, n.End, from, to)
			}
			if n.Kind == Scalar && n.Style == Plain && !strings.ContainsAny(n.Text, " \n\ufffd") && n.Text != text[n.Start:n.End] {
				t.Errorf("plain %q stands as %q", n.Text, text[n.Start:n.End])
			}
			at := n.Start
			for _, p := range n.Pairs {
				walk(p.Key, at, len(text))
				walk(p.Value, p.Key.End, len(text))
				at = p.Value.End
			}
			for _, i := range n.Items {
				walk(i, at, len(text))
				at = i.End
			}
		}
		walk(root, 0, len(text))
	})
}
