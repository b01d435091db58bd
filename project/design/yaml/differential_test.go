package yaml

import (
	"fmt"
	"testing"

	goccy "github.com/goccy/go-yaml"
	"github.com/google/go-cmp/cmp"
)

// plainTree returns a node as maps, lists and texts.
func plainTree(n *Node) any {
	switch {
	case n == nil || n.Kind == Null:
		return nil
	case n.Kind == Mapping:
		m := map[string]any{}
		for _, p := range n.Pairs {
			m[p.Key.Text] = plainTree(p.Value)
		}
		return m
	case n.Kind == List:
		l := []any{}
		for _, i := range n.Items {
			l = append(l, plainTree(i))
		}
		return l
	}
	return n.Text
}

// goccyTree returns what a general YAML library reads; numbers and switches
// become the text they would be written as.
func goccyTree(text string) (any, error) {
	var v any
	if err := goccy.Unmarshal([]byte(text), &v); err != nil {
		return nil, err
	}
	var walk func(any) any
	walk = func(v any) any {
		switch v := v.(type) {
		case map[string]any:
			for k := range v {
				v[k] = walk(v[k])
			}
			return v
		case []any:
			for i := range v {
				v[i] = walk(v[i])
			}
			return v
		case nil, string:
			return v
		}
		return fmt.Sprint(v)
	}
	return walk(v), nil
}

// Each text is read the same by a general YAML library.
func TestReadsAsOthersDo(t *testing.T) {
	for _, text := range []string{
		"a: 1\nb: two words\n",
		"# head\na: 1 # behind\n\n# between\nb:\n  c: x\n  # inner\n  d: y\n",
		"a:\n- 1\n- 2\nb: 3\n",
		"a:\n  - 1\n  - 2\n",
		"- a: 1\n  b: 2\n- a: 3\n",
		"- - 1\n  - 2\n- - 3\n",
		"-\n  a: 1\n-\n  - x\n",
		"a: [1, 2, [3, 4], {b: c}]\n",
		"a: {b: 1, c: [x, y], d: , e}\n",
		"a: [\n  1, # one\n  2,\n  3\n  ]\n",
		"a: {\"b\": 1, 'c': 2}\n",
		"a: {\"b\":1}\n",
		"a: \"x \\\"y\\\" \\t \\u00b5 \\\\\"\nb: 'it''s'\n",
		"a: \"two\n  lines\"\nb: 'three\n\n  lines'\n",
		"a: \"no \\\n  space\"\n",
		"a: |\n  one\n   two\n\n  three\nb: x\n",
		"a: |-\n  one\n  two\n",
		"a: |+\n  one\n\nb: x\n",
		"a: >\n  one\n  two\n\n  three\n    four\n  five\nb: x\n",
		"a: >-\n  one\n  two\n",
		"a: |2\n   one\n  two\n",
		"a: plain text\n  that goes on\nb: x\n",
		"a: plain text\n\n  that goes on\nb: x\n",
		"a:\nb: ~\nc: null\nd:\n  e:\n",
		"a: 28 mm\nb: 15 %\nc: 9.5 bar(g)\nd: 0.06 %/(g/L)\ne: 5 µm\n",
		"a: http://x.y/z\nb: 12:30\nc: a#b\nd: -5 °C\n",
		"\"a b\": 1\n'c': 2\n",
		"---\na: 1\n...\n",
		"%YAML 1.2\n---\na: 1\n",
		"--- # head\na: 1\n",
		"a: 1\n",
		"a:   1   \nb:\t2\n",
		"  a: 1\n  b: 2\n",
		"a:\n  b:\n    c:\n      d: 1\ne: 2\n",
		"a:\n  - b:\n      c: 1\n    d: 2\n  - e\n",
		"a: ? b\n"[:0] + "a: x?\nb: -x\nc: :x\n",
		"rows:\n  - [1, 60]\n  - [2, 50 %]\n",
		"x: {figure: a.b, side: max, value: \"15 %\", note: \"10 to 15 %\"}\n",
	} {
		want, err := goccyTree(text)
		if err != nil {
			t.Errorf("%q: the library: %v", text, err)
			continue
		}
		root, faults := Parse(text)
		if len(faults) > 0 {
			t.Errorf("%q: %v", text, faults)
			continue
		}
		if diff := cmp.Diff(want, plainTree(root)); diff != "" {
			t.Errorf("%q (-library +ours):\n%s", text, diff)
		}
	}
}
