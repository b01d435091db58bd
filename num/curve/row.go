package curve

import (
	"errors"
	"fmt"
	"math"
)

// Via says how the piece that arrives at a row is made.
type Via string

// The kinds of piece. The empty Via is a line.
const (
	Line  Via = "line"
	Arc   Via = "arc"   // circular, with the row's signed Radius
	Curve Via = "curve" // spline through the consecutive rows marked so
)

// Spline says how runs of rows marked [Curve] are joined.
type Spline string

// The splines, each through every point, with the chord as parameter.
const (
	// Natural is twice continuously differentiable, with free (straight) ends.
	Natural Spline = "natural"
	// Tangent is Natural, but leaves and enters neighbouring lines and arcs
	// without a corner.
	Tangent Spline = "tangent"
	// Monotone is once continuously differentiable and swings over no point:
	// z and r stay between their values at the two ends of a piece.
	Monotone Spline = "monotone"
)

// Row is one row of a profile table.
type Row struct {
	Z, R   float64 // m; r >= 0
	Via    Via     // of the piece that arrives here; the first row has none
	Radius float64 // of an arc [m]: positive bulges outward, negative inward; the minor arc is taken
	Name   string  // for messages; "row N" when empty
}

// Point is a point of the meridian plane [m].
type Point struct{ Z, R float64 }

// mm prints metres as millimetres for a message.
func mm(x float64) string { return fmt.Sprintf("‹%.4g mm›", x*1e3) }

// named returns what a message calls row i.
func named(rows []Row, i int) string {
	if rows[i].Name != "" {
		return rows[i].Name
	}
	return fmt.Sprintf("row %d", i+1)
}

// checkRows reports every fault that can be seen in the table itself.
func checkRows(rows []Row) error {
	var faults []error
	fault := func(i int, format string, args ...any) {
		faults = append(faults, fmt.Errorf("curve: %s: %s", named(rows, i), fmt.Sprintf(format, args...)))
	}
	if len(rows) < 2 {
		return fmt.Errorf("curve: a profile of %d rows: give at least 2", len(rows))
	}
	for i, w := range rows {
		if !finite(w.Z) || !finite(w.R) || !finite(w.Radius) {
			fault(i, "z %v, r %v, radius %v: want finite numbers", w.Z, w.R, w.Radius)
			continue
		}
		if w.R < 0 {
			fault(i, "r = %s is negative: r counts from the axis, enter 0 or more", mm(w.R))
		}
		if w.R == 0 && i > 0 && i < len(rows)-1 {
			fault(i, "r = 0 inside the table: only the first and the last row may lie on the axis")
		}
		if i == 0 {
			continue
		}
		p := rows[i-1]
		chord := math.Hypot(w.Z-p.Z, w.R-p.R)
		if chord <= 1e-9 {
			fault(i, "same point as %s (z %s, r %s): delete one of the two", named(rows, i-1), mm(w.Z), mm(w.R))
			continue
		}
		if w.R == 0 && p.R == 0 {
			fault(i, "the piece from %s runs along the axis: delete %s", named(rows, i-1), named(rows, i))
		}
		switch w.Via {
		case "", Line, Curve:
		case Arc:
			if w.Radius == 0 {
				fault(i, "an arc without radius: give a signed radius (positive bulges outward), or make it a line")
			} else if math.Abs(w.Radius) < chord/2*(1-1e-9) {
				fault(i, "arc radius %s is less than half the chord of %s: use %s or more, or a line",
					mm(w.Radius), mm(chord), mm(chord/2))
			}
		default:
			fault(i, "piece %q is not line, arc or curve", w.Via)
		}
	}
	return errors.Join(faults...)
}

func finite(x float64) bool { return !math.IsNaN(x) && !math.IsInf(x, 0) }
