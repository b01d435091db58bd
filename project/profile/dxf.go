package profile

import (
	"bytes"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"costrel/unit"
)

// pair is one group of a DXF file: a code and its value, on two lines.
type pair struct {
	code  int
	value string
	line  int // of the value
}

// entity is one entity of the drawing, with the pairs that describe it.
type entity struct {
	kind  string
	pairs []pair
	line  int
}

// insunits are the values of $INSUNITS that are lengths of a bottle drawing.
var insunits = map[string]string{"1": "in", "2": "ft", "4": "mm", "5": "cm", "6": "m", "9": "mil", "13": "µm", "14": "dm"}

// scales are the units of a drawing that the unit table does not have [m].
var scales = map[string]float64{"dm": 0.1}

// dxf reads the pieces of a drawing, in m.
func (r *reader) dxf(data []byte) []piece {
	if bytes.IndexByte(data[:min(len(data), 4096)], 0) >= 0 {
		r.fault(1, "", "export it as ASCII DXF", "this is a binary file")
		return nil
	}
	pairs := r.pairs(string(data))
	if pairs == nil {
		return nil
	}
	scale := r.scale(pairs)
	d := &drawing{reader: r, scale: scale, skipped: map[string]int{}}
	for _, e := range entities(pairs) {
		d.entity(e)
	}
	d.tell()
	if len(d.pieces) == 0 && len(r.faults) == 0 {
		r.fault(0, r.o.Layer, "draw the half-section with LINE, ARC, LWPOLYLINE, POLYLINE or SPLINE in the model space", "the drawing has no line that can be read")
	}
	return d.pieces
}

// pairs cuts the file into groups.
func (r *reader) pairs(text string) []pair {
	lines := strings.Split(strings.ReplaceAll(strings.ReplaceAll(text, "\r\n", "\n"), "\r", "\n"), "\n")
	var out []pair
	for i := 0; i+1 < len(lines); i += 2 {
		code, err := strconv.Atoi(strings.TrimSpace(lines[i]))
		if err != nil {
			r.fault(i+1, lines[i], "export the drawing again as ASCII DXF", "%q is no group code", clip(strings.TrimSpace(lines[i])))
			return nil
		}
		p := pair{code, strings.TrimSpace(strings.ToValidUTF8(lines[i+1], "?")), i + 2}
		out = append(out, p)
		if code == 0 && p.value == "EOF" {
			return out
		}
	}
	r.fault(len(lines), "", "export it again", "the file ends before its end mark EOF")
	return nil
}

// scale returns the length of a drawing unit [m].
func (r *reader) scale(pairs []pair) float64 {
	symbol, line := r.o.Unit, 0
	for i, p := range pairs {
		if p.code == 9 && p.value == "$INSUNITS" && i+1 < len(pairs) {
			line = pairs[i+1].line
			own := insunits[pairs[i+1].value]
			if symbol != "" && own != "" && own != symbol {
				r.note("The file says %s; %s is taken, as asked.", own, symbol)
			}
			if symbol == "" {
				symbol = own
			}
		}
	}
	if v, ok := scales[symbol]; ok {
		return v
	}
	if u, ok := unit.Find(unit.Length, symbol); ok && symbol != "" {
		return u.Scale
	}
	if symbol == "" {
		r.fault(line, "$INSUNITS", "name the unit of the drawing, such as mm, or set it in the drawing", "the drawing does not say its unit")
	} else {
		r.fault(0, symbol, "one of "+strings.Join(unit.Accepted(unit.Length), ", "), "%q is no unit of length", clip(symbol))
	}
	return 1e-3 // so that the other faults are told, too
}

// entities returns what stands in the section of that name.
func entities(pairs []pair) []entity {
	var out []entity
	inside := false
	for i, p := range pairs {
		if p.code == 2 && i > 0 && pairs[i-1].code == 0 && pairs[i-1].value == "SECTION" {
			inside = p.value == "ENTITIES"
			continue
		}
		if p.code == 0 && p.value == "ENDSEC" {
			inside = false
		}
		if !inside {
			continue
		}
		if p.code == 0 {
			out = append(out, entity{kind: p.value, line: p.line})
		} else if len(out) > 0 {
			e := &out[len(out)-1]
			e.pairs = append(e.pairs, p)
		}
	}
	return out
}

// drawing collects the pieces of the entities.
type drawing struct {
	*reader
	scale   float64
	pieces  []piece
	skipped map[string]int
	poly    *polyline // that waits for its vertices
}

// tell notes what was left out, and the layers.
func (d *drawing) tell() {
	if d.poly != nil {
		d.end()
	}
	var kinds []string
	for k, n := range d.skipped {
		kinds = append(kinds, fmt.Sprintf("%d %s", n, k))
	}
	slices.Sort(kinds)
	if len(kinds) > 0 {
		d.note("Left out: %s.", strings.Join(kinds, ", "))
	}
	slices.Sort(d.out.Layers)
}

// number returns the first value of a group code; ok is false when it is not
// there or is no number.
func (d *drawing) number(e entity, code int, otherwise float64) float64 {
	for _, p := range e.pairs {
		if p.code == code {
			return d.value(e, p)
		}
	}
	return otherwise
}

// value reads a number of an entity. Sizes beyond any drawing are refused.
func (d *drawing) value(e entity, p pair) float64 {
	v, err := strconv.ParseFloat(p.value, 64)
	if err != nil || math.IsNaN(v) || math.Abs(v) > 1e9 {
		d.fault(p.line, p.value, "export the drawing again", "%s: %q of group %d is no number of a drawing", e.kind, clip(p.value), p.code)
		return 0
	}
	return v
}

func (d *drawing) text(e entity, code int) string {
	for _, p := range e.pairs {
		if p.code == code {
			return p.value
		}
	}
	return ""
}

// point reads the coordinates under code and code+10.
func (d *drawing) point(e entity, code int) pt {
	return pt{d.number(e, code, 0) * d.scale, d.number(e, code+10, 0) * d.scale}
}
