// Package yaml reads the part of YAML 1.2 that a design document uses and
// keeps the place of everything it reads, so that a fault can point at it and
// an edit can replace it and nothing else.
//
// Read are block and flow mappings and lists, plain, quoted, literal and
// folded text, comments, a byte order mark, both ends of line. Not read, and
// named as faults, are anchors, aliases, tags, merge keys, keys that are more
// than one line of text, and a second document. What is read means the same
// to every YAML reader.
//
// Reading goes on behind a fault: one pass names all of them. It takes time
// in proportion to the text and refuses deep nesting.
package yaml

// Kind says what a node is.
type Kind uint8

// The kinds of node.
const (
	Bad     Kind = iota // not readable; its fault is reported
	Null                // nothing, ~ or null
	Scalar              // one text
	Mapping             // key: value
	List                // - entry
)

// Style says how a scalar is written.
type Style uint8

// The styles of a scalar.
const (
	Plain Style = iota
	Single
	Double
	Literal // |
	Folded  // >
)

// Place is a place in the text. Both count from 1; Column counts characters.
type Place struct {
	Line, Column int
}

// Node is one value of a document.
type Node struct {
	Kind  Kind
	Style Style
	Flow  bool   // a mapping or list in brackets
	Text  string // of a scalar
	Pairs []Pair // of a mapping
	Items []*Node
	Place
	Start, End int // bytes of the text that the node takes
	Indent     int // column of the entries of a block mapping or list, from 0
}

// Pair is one entry of a mapping.
type Pair struct {
	Key, Value *Node
}

// Get returns the value of the first pair with the given key.
func (n *Node) Get(key string) (*Node, bool) {
	if n == nil {
		return nil, false
	}
	for _, p := range n.Pairs {
		if p.Key.Text == key {
			return p.Value, true
		}
	}
	return nil, false
}

// What names the kind of a node for a reader.
func (n *Node) What() string {
	if n == nil {
		return "nothing"
	}
	switch n.Kind {
	case Mapping:
		return "a mapping"
	case List:
		return "a list"
	case Scalar:
		return "a single value"
	case Null:
		return "nothing"
	}
	return "not readable"
}

// Fault is one place where the text is not of the part of YAML that is read.
type Fault struct {
	Place
	Text     string // what stands there
	Message  string
	Expected string
}
