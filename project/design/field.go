package design

import (
	"reflect"
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
}

var fieldCache sync.Map // reflect.Type -> []Field; written once a type, never changed

// fieldsOf returns the schema of a struct type.
func fieldsOf(t reflect.Type) []Field {
	if f, ok := fieldCache.Load(t); ok {
		return f.([]Field)
	}
	var out []Field
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
		out = append(out, f)
	}
	fieldCache.Store(t, out)
	return out
}

// limits returns the accepted range of a quantity in SI; ok is false on a
// side that has none.
func (f Field) limits() (lo, hi float64, hasLo, hasHi bool) {
	if f.Min != "" {
		if v, err := unit.Parse(f.Kind, f.Min); err == nil {
			lo, hasLo = v.SI, true
		}
	}
	if f.Max != "" {
		if v, err := unit.Parse(f.Kind, f.Max); err == nil {
			hi, hasHi = v.SI, true
		}
	}
	return lo, hi, hasLo, hasHi
}

// nearest returns the candidate closest to word, or "" when none is near.
func nearest(word string, candidates []string) string {
	best, bestD := "", 1<<30
	for _, c := range candidates {
		if d := distance(strings.ToLower(word), strings.ToLower(c)); d < bestD {
			best, bestD = c, d
		}
	}
	if bestD > max(2, len(word)/3) {
		return ""
	}
	return best
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
	lo, hi, hasLo, hasHi := f.limits()
	if hasLo && v < lo {
		return lo
	}
	if hasHi && v > hi {
		return hi
	}
	return v
}
