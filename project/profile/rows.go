package profile

import (
	"fmt"
	"math"
	"slices"

	"costrel/project/design"
)

// Largest sizes of a bottle that the design document takes [m].
const (
	maxHeight = 0.6
	maxRadius = 0.15
)

// rows turns a joined line into the rows of a profile.
func (r *reader) rows(line []piece) {
	if len(line) == 0 || len(r.faults) > 0 {
		return
	}
	line = r.upright(line)
	line = r.side(line)
	if len(r.faults) > 0 {
		return
	}
	line = r.direction(line)
	inside, outside := r.stand(line)
	outside = r.end(outside)
	if len(outside) == 0 || len(r.faults) > 0 {
		return
	}
	r.sizes(outside)
	for _, p := range inside {
		r.out.Inside = append(r.out.Inside, Point{Z: p.a.y, R: p.a.x})
	}
	if len(inside) > 0 {
		last := inside[len(inside)-1].b
		r.out.Inside = append(r.out.Inside, Point{Z: last.y, R: last.x})
		r.out.PushUp = inside[0].a.y
	}
	r.write(outside)
}

// upright turns a drawing with a horizontal axis, and one that stands on its
// head.
func (r *reader) upright(line []piece) []piece {
	lo, hi := pt{math.Inf(1), math.Inf(1)}, pt{math.Inf(-1), math.Inf(-1)}
	for _, p := range line {
		for _, q := range []pt{p.a, p.at(0.5), p.b} {
			lo = pt{math.Min(lo.x, q.x), math.Min(lo.y, q.y)}
			hi = pt{math.Max(hi.x, q.x), math.Max(hi.y, q.y)}
		}
	}
	axis := r.o.Axis
	if axis == "" && hi.x-lo.x > hi.y-lo.y {
		axis = "horizontal"
		r.note("The drawing is wider than high: its axis is taken as horizontal, y = 0.")
	}
	if axis == "horizontal" {
		line = each(line, func(q pt) pt { return pt{q.y, q.x} })
	}
	// The base is the end on the axis.
	first, last := line[0].a, line[len(line)-1].b
	if last.y < first.y {
		first, last = last, first
	}
	tol := r.o.Tolerance
	if math.Abs(last.x) <= tol && math.Abs(first.x) > tol {
		line = each(line, func(q pt) pt { return pt{q.x, -q.y} })
		r.note("The end on the axis is taken as the base: the drawing is turned upside down.")
	}
	return line
}

// each applies a reflection to all pieces.
func each(line []piece, f func(pt) pt) []piece {
	out := make([]piece, len(line))
	for i, p := range line {
		out[i] = p.mirrored(f)
	}
	return out
}

// side brings the profile to the right of the axis.
func (r *reader) side(line []piece) []piece {
	tol := r.o.Tolerance
	left, right := 0.0, 0.0
	var where piece
	for _, p := range line {
		for i := range 17 {
			x := p.at(float64(i) / 16).x
			if x < left {
				left = x
			}
			if x > right {
				right, where = x, p
			}
		}
	}
	switch {
	case left < -tol && right > tol:
		r.fault(where.line, where.what, "leave one half, and move the drawing so that the axis of the bottle is at 0", "the outline lies on both sides of the axis, from %.4g to %.4g mm", left*1e3, right*1e3)
	case left < -tol:
		line = each(line, func(q pt) pt { return pt{-q.x, q.y} })
		r.note("The left half is mirrored.")
	}
	for i := range line {
		for _, q := range []*pt{&line[i].a, &line[i].b} {
			if math.Abs(q.x) <= tol {
				q.x = 0
			}
		}
	}
	return line
}

// direction lets the line begin at the base.
func (r *reader) direction(line []piece) []piece {
	first, last := line[0].a, line[len(line)-1].b
	if last.y < first.y {
		slices.Reverse(line)
		for i := range line {
			line[i] = line[i].back()
		}
	}
	// A line across the mouth closes the section, not the outside.
	if n := len(line); n > 1 && line[n-1].b.x == 0 && line[n-1].radius == 0 {
		r.note("The line across the mouth is left out.")
		line = line[:n-1]
	}
	return line
}

// stand moves the lowest point to z = 0 and parts the line there.
func (r *reader) stand(line []piece) (inside, outside []piece) {
	best, at, share := math.Inf(1), 0, 0.0
	for i, p := range line {
		u := p.low()
		if y := p.at(u).y; y <= best+1e-9 {
			best, at, share = math.Min(best, y), i, u
		}
	}
	if math.Abs(best) > 1e-6 {
		r.note("Heights are counted from the lowest point of the drawing, at %.4g mm.", best*1e3)
	}
	for i := range line {
		line[i].a.y -= best
		line[i].b.y -= best
	}
	a, b := line[at].cut(share)
	inside = slices.Clone(line[:at])
	if share > 1e-6 {
		inside = append(inside, a)
	}
	if share < 1-1e-6 {
		outside = append(outside, b)
	}
	outside = append(outside, line[at+1:]...)
	if len(outside) > 0 && len(inside) > 0 && inside[0].a.x > 0 {
		r.note("The drawing does not reach the base centre; the base inside the standing ring is that of the design.")
		inside = nil
	}
	return inside, outside
}

// end takes off what stands above the ledge.
func (r *reader) end(line []piece) []piece {
	if r.o.Top == 0 || len(line) == 0 {
		return line
	}
	top := line[len(line)-1].b.y
	if r.o.Top > top+r.o.Tolerance {
		r.fault(0, "", "let it end lower, or draw on", "the profile is to end at %.4g mm, and the drawing ends at %.4g mm", r.o.Top*1e3, top*1e3)
		return nil
	}
	for i, p := range line {
		u, ok := p.crossing(math.Min(r.o.Top, top))
		if !ok {
			continue
		}
		a, _ := p.cut(u)
		out := slices.Clone(line[:i])
		if a.a.to(a.b) > 1e-7 {
			out = append(out, a)
		}
		return out
	}
	return line
}

// sizes reports an outline that no bottle has.
func (r *reader) sizes(line []piece) {
	high, wide := line[len(line)-1].b.y, 0.0
	for _, p := range line {
		wide = math.Max(wide, math.Max(p.a.x, p.b.x))
	}
	const remedy = "check the unit of the file"
	if high > maxHeight || high < 5e-3 {
		r.fault(0, "", remedy, "the outline is %.4g mm high; 5 mm to %.4g mm can be computed", high*1e3, maxHeight*1e3)
	}
	if wide > maxRadius || wide < 5e-3 {
		r.fault(0, "", remedy, "the largest radius is %.4g mm; 5 mm to %.4g mm can be computed", wide*1e3, maxRadius*1e3)
	}
}

// maxRows is the most rows of a profile in the design document.
const maxRows = 2000

// write turns pieces into rows.
func (r *reader) write(line []piece) {
	line = thin(line, 1e-7)
	for tol := r.o.Tolerance / 4; len(line) >= maxRows && tol < 1e-4; tol *= 2 {
		line = thin(line, tol)
		r.note("Points within %.3g mm of a straight line are left out.", tol*1e3)
	}
	if len(line) >= maxRows {
		r.fault(0, "", "thin the points out", "%d rows; a profile has at most %d", len(line)+1, maxRows)
		return
	}
	rows := []design.ProfileRow{{Z: 0, R: line[0].a.x}}
	for i, p := range line {
		row := design.ProfileRow{Z: math.Max(0, p.b.y), R: p.b.x}
		switch {
		case p.radius != 0:
			row.Via = arcVia(p)
		case p.curve && (!p.first || i == 0 || !line[i-1].curve || smooth(line[i-1], p)):
			row.Via = "curve"
		}
		rows = append(rows, row)
	}
	r.out.Rows = rows
}

// arcVia writes an arc: a positive radius bulges outward, which is to the right
// of the way up, where the arc turns left.
func arcVia(p piece) string {
	radius := p.radius
	// Rounded digits must not make the radius less than half the chord.
	if half := p.a.to(p.b) / 2; math.Abs(radius) < half*(1+1e-6) {
		radius = math.Copysign(half*(1+2e-6), radius)
	}
	return fmt.Sprintf("arc %s mm", short(radius*1e3, 7))
}

// smooth tells whether two chords meet without a corner.
func smooth(p, q piece) bool {
	ux, uy, vx, vy := p.b.x-p.a.x, p.b.y-p.a.y, q.b.x-q.a.x, q.b.y-q.a.y
	return math.Abs(math.Atan2(ux*vy-uy*vx, ux*vx+uy*vy)) < 8*math.Pi/180
}

// thin joins lines that lie within the tolerance of a straight one.
func thin(line []piece, tol float64) []piece {
	var out []piece
	var run []pt
	for _, p := range line {
		straight := p.radius == 0 && !p.curve
		if n := len(out); straight && n > 0 && out[n-1].radius == 0 && !out[n-1].curve {
			from := out[n-1].a
			fits := smooth(out[n-1], p)
			for _, q := range append(run, out[n-1].b) {
				fits = fits && offChord(from, p.b, q) <= tol
			}
			if fits && len(run) < 200 {
				run = append(run, out[n-1].b)
				out[n-1].b = p.b
				continue
			}
		}
		run = run[:0]
		out = append(out, p)
	}
	return out
}
