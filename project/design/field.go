package design

import (
	"math"
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
	Trade    string // unit in which the trade writes this column, where it is not that of the kind
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

// rangeIn returns the accepted range in a unit of the field, rounded inwards.
func (f Field) rangeIn(symbol string) string {
	u, ok := unit.Find(f.Kind, symbol)
	if !ok {
		return f.rangeText()
	}
	f.Min = f.boundIn(f.Min, f.lo, u, math.Ceil)
	f.Max = f.boundIn(f.Max, f.hi, u, math.Floor)
	return f.rangeText()
}

func (f Field) boundIn(text string, b bound, u unit.Unit, inwards func(float64) float64) string {
	if q, err := unit.Parse(f.Kind, text); err != nil || q.Symbol == u.Symbol {
		return text
	}
	const digits = 4
	v := (b.si - u.Offset) / u.Scale
	if v == 0 {
		return unit.Format(f.Kind, b.si, u.Symbol, digits)
	}
	step := math.Pow10(digits - 1 - int(math.Floor(math.Log10(math.Abs(v)))))
	v = inwards(math.Round(v*step*1e6)/1e6) / step
	return unit.Format(f.Kind, v*u.Scale+u.Offset, u.Symbol, digits)
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
			Optional: sf.Tag.Get("opt") == "true", Trade: sf.Tag.Get("trade"), index: i, typ: sf.Type,
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
