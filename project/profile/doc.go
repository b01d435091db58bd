// Package profile reads the outer profile of a bottle from a table of points or
// from a drawing.
//
// A CSV table has a radius or a diameter and a height in each row, in order
// along the profile, with the unit in its heading. A drawing is an ASCII DXF
// file, from release 12 to 2018, with the half-section as LINE, ARC,
// LWPOLYLINE, POLYLINE or SPLINE; its unit is that of $INSUNITS. The pieces are
// joined, whatever their order and direction, into one open line from the base
// to the support ledge. Lines and arcs stay lines and arcs; splines become
// points with a curve through them.
//
// The reader guesses no unit and closes no gap wider than the tolerance: what
// does not fit is told with line, value, limit and remedy, all at once.
package profile

import (
	"fmt"
	"path/filepath"
	"strings"

	"costrel/project/design"
)

// MaxBytes is the largest file that is read [bytes].
const MaxBytes = 8 << 20

// Tolerance is how far ends of pieces may lie apart, and how far a sampled
// spline may lie off its chord, where the reader is not told otherwise [m].
const Tolerance = 0.02e-3

// Options say what a file leaves open.
type Options struct {
	Unit      string  // of lengths, such as "mm"; empty: as the file says
	Layer     string  // of a drawing; empty: all
	Axis      string  // of a drawing: "vertical" (r = 0 is x = 0), "horizontal" (r = 0 is y = 0), empty: by its shape
	Top       float64 // height of the support ledge over the standing plane, where the profile ends [m]; 0: at its end
	Tolerance float64 // m; 0: [Tolerance]
}

// Profile is an outer profile as it was read. Lengths in m.
type Profile struct {
	Rows   []design.ProfileRow // from the standing ring up to the ledge; z from the standing plane
	Inside []Point             // from the base centre to the standing ring; empty where the file draws none
	PushUp float64             // height of the base centre over the standing plane; 0 where Inside is empty
	Layers []string            // of the drawing, with pieces in them
	Notes  []string            // what was assumed or left out
}

// Point is a place of the half-section [m].
type Point struct{ Z, R float64 }

// Standing returns the diameter of the standing ring [m].
func (p *Profile) Standing() float64 { return 2 * p.Rows[0].R }

// Fault is one thing that keeps a file from being read.
type Fault struct {
	File     string `json:"file"`
	Line     int    `json:"line" doc:"from 1; 0 when the fault has no single place"`
	Text     string `json:"text"`
	Message  string `json:"message"`
	Expected string `json:"expected,omitempty" doc:"what would be accepted, or what to do"`
}

// Error returns the fault with its place.
func (f Fault) Error() string {
	var b strings.Builder
	b.WriteString(f.File + ":")
	if f.Line > 0 {
		fmt.Fprintf(&b, "%d:", f.Line)
	}
	b.WriteString(" " + f.Message)
	if f.Expected != "" {
		b.WriteString("; " + f.Expected)
	}
	return b.String()
}

// Faults is everything that keeps one file from being read.
type Faults []Fault

// Error returns one line a fault.
func (fs Faults) Error() string {
	lines := make([]string, len(fs))
	for i, f := range fs {
		lines[i] = f.Error()
	}
	return strings.Join(lines, "\n")
}

// most is the largest number of faults told of one file.
const most = 50

// Read reads a file by the end of its name, .dxf or anything else for a table.
// The error is [Faults]. The layers of a drawing are returned even then, in a
// profile without rows.
func Read(name string, data []byte, o Options) (*Profile, error) {
	if o.Tolerance == 0 {
		o.Tolerance = Tolerance
	}
	r := &reader{file: name, o: o, out: &Profile{}}
	switch {
	case len(data) > MaxBytes:
		r.fault(0, "", fmt.Sprintf("give the outline alone, at most %d MB", MaxBytes>>20), "the file has %d bytes", len(data))
	case !(o.Tolerance >= 1e-7 && o.Tolerance <= 1e-3):
		r.fault(0, "", "take 0.0001 mm to 1 mm", "a tolerance of %.4g mm", o.Tolerance*1e3)
	case o.Top < 0:
		r.fault(0, "", "give a height above the standing plane, or none", "the profile is to end at %.4g mm", o.Top*1e3)
	case o.Axis != "" && o.Axis != "vertical" && o.Axis != "horizontal":
		r.fault(0, o.Axis, "vertical or horizontal", "%q is no direction of the axis", o.Axis)
	case strings.EqualFold(filepath.Ext(name), ".dxf"):
		r.rows(r.join(r.dxf(data)))
	default:
		r.rows(r.csv(data))
	}
	if len(r.faults) == 0 {
		return r.out, nil
	}
	r.out.Rows = nil
	if n := len(r.faults); n > most {
		r.faults = append(r.faults[:most], Fault{File: name, Message: fmt.Sprintf("and %d more faults", n-most)})
	}
	return r.out, r.faults
}

// reader reads one file.
type reader struct {
	file   string
	o      Options
	out    *Profile
	faults Faults
}

func (r *reader) fault(line int, text, expected, format string, args ...any) {
	r.faults = append(r.faults, Fault{File: r.file, Line: line, Text: clip(text), Message: fmt.Sprintf(format, args...), Expected: expected})
}

func (r *reader) note(format string, args ...any) {
	r.out.Notes = append(r.out.Notes, fmt.Sprintf(format, args...))
}

func clip(s string) string {
	if len(s) <= 60 {
		return s
	}
	return strings.ToValidUTF8(s[:60], "") + "..."
}
