package design

import (
	"reflect"
	"strconv"
	"strings"
	"sync"

	"costrel/unit"
)

// Field is what the schema says of one value of the document.
type Field struct {
	Key      string
	Label    string
	Doc      string
	Kind     unit.Kind // empty for words, switches and whole numbers
	Enum     []string
	Min, Max string // as written in the schema, with unit
	Optional bool   // a column that a table may leave out
	index    int
	typ      reflect.Type
	lo, hi   bound
}

// bound is one end of the accepted range in SI.
type bound struct {
	si float64
	ok bool
}

// Limits returns the accepted range [SI]; ok is false on a side that has none.
func (f Field) Limits() (lo, hi float64, hasLo, hasHi bool) {
	return f.lo.si, f.hi.si, f.lo.ok, f.hi.ok
}

// rangeText returns the accepted range in words.
func (f Field) rangeText() string {
	switch {
	case f.Min != "" && f.Max != "":
		return f.Min + " to " + f.Max
	case f.Min != "":
		return "at least " + f.Min
	case f.Max != "":
		return "at most " + f.Max
	}
	return ""
}

// schema is the fields of one struct type.
type schema struct {
	fields []Field
	keys   []string
	byKey  map[string]int
}

var schemas sync.Map // reflect.Type -> *schema; written once a type, never changed

// schemaOf returns the schema of a struct type.
func schemaOf(t reflect.Type) *schema {
	if s, ok := schemas.Load(t); ok {
		return s.(*schema)
	}
	s := &schema{byKey: map[string]int{}}
	for i := range t.NumField() {
		sf := t.Field(i)
		f := Field{
			Key: sf.Tag.Get("yaml"), Label: sf.Tag.Get("label"), Doc: sf.Tag.Get("doc"),
			Kind: unit.Kind(sf.Tag.Get("kind")), Min: sf.Tag.Get("min"), Max: sf.Tag.Get("max"),
			Optional: sf.Tag.Get("opt") == "true", index: i, typ: sf.Type,
		}
		if e := sf.Tag.Get("enum"); e != "" {
			f.Enum = strings.Split(e, ",")
		}
		f.lo, f.hi = f.bound(f.Min), f.bound(f.Max)
		s.byKey[f.Key] = len(s.fields)
		s.fields = append(s.fields, f)
		s.keys = append(s.keys, f.Key)
	}
	schemas.Store(t, s)
	return s
}

// fieldsOf returns the fields of a struct type.
func fieldsOf(t reflect.Type) []Field { return schemaOf(t).fields }

func (f Field) bound(text string) bound {
	if text == "" {
		return bound{}
	}
	if f.Kind == "" {
		v, err := strconv.Atoi(text)
		return bound{float64(v), err == nil}
	}
	v, err := unit.Parse(f.Kind, text)
	return bound{v.SI, err == nil}
}

// nearest returns the candidate closest to word, or "" when none is near.
func nearest(word string, candidates []string) string {
	if len(word) > 200 {
		return ""
	}
	best, bestD, bestLost := "", 1<<30, 0
	w := strings.ToLower(word)
	for _, c := range candidates {
		d, l := distance(w, strings.ToLower(c)), lost(w, strings.ToLower(c))
		if d < bestD || d == bestD && l < bestLost {
			best, bestD, bestLost = c, d, l
		}
	}
	if bestD > max(2, len(word)/3) || bestD >= len([]rune(word)) {
		return ""
	}
	return best
}

// lost counts the characters of a word that another does not have.
func lost(a, b string) int {
	n := 0
	for _, r := range a {
		if i := strings.IndexRune(b, r); i >= 0 {
			b = b[:i] + b[i+len(string(r)):]
		} else {
			n++
		}
	}
	return n
}

// distance is the edit distance of two words (insert, delete, replace and
// swap of neighbours cost 1).
func distance(a, b string) int {
	s, t := []rune(a), []rune(b)
	if len(s) > 64 {
		s = s[:64]
	}
	prev2, prev, cur := make([]int, len(t)+1), make([]int, len(t)+1), make([]int, len(t)+1)
	for j := range prev {
		prev[j] = j
	}
	for i := 1; i <= len(s); i++ {
		cur[0] = i
		for j := 1; j <= len(t); j++ {
			cost := 1
			if s[i-1] == t[j-1] {
				cost = 0
			}
			cur[j] = min(prev[j]+1, cur[j-1]+1, prev[j-1]+cost)
			if i > 1 && j > 1 && s[i-1] == t[j-2] && s[i-2] == t[j-1] {
				cur[j] = min(cur[j], prev2[j-2]+1)
			}
		}
		prev2, prev, cur = prev, cur, prev2
	}
	return prev[len(t)]
}

// Clip returns v moved inside the accepted range of the field.
func (f Field) Clip(v float64) float64 {
	if f.lo.ok && v < f.lo.si {
		return f.lo.si
	}
	if f.hi.ok && v > f.hi.si {
		return f.hi.si
	}
	return v
}
