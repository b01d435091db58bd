package profile

import (
	"fmt"
	"math"
	"slices"
	"sort"
)

// join orders pieces into one open line, whatever their order and direction.
// Ends within the tolerance are one point.
func (r *reader) join(pieces []piece) []piece {
	if len(r.faults) > 0 || len(pieces) == 0 {
		return nil
	}
	first := pieces[0]
	if pieces = r.clean(pieces); len(pieces) == 0 {
		r.fault(first.line, first.what, "draw the outer profile, and check the unit of the file", "no piece of the drawing is longer than the tolerance of %.3g mm", r.o.Tolerance*1e3)
		return nil
	}
	w := newWeb(pieces, r.o.Tolerance)
	r.branches(w)
	if len(r.faults) > 0 {
		return nil
	}
	chains := w.chains()
	var open [][]piece
	for _, c := range chains {
		if !c.closed {
			open = append(open, c.pieces)
		}
	}
	switch {
	case len(open) == 1:
		if len(chains) > 1 {
			r.note("Left out: %d closed outlines.", len(chains)-1)
		}
		return open[0]
	case len(open) == 0:
		p := pieces[0]
		r.fault(p.line, p.what, "leave the outer face alone, open at the ledge and at the base centre", "the outline is closed")
	default:
		r.several(open)
	}
	return nil
}

// clean takes out what is no outline: points, doubles, the centre line.
func (r *reader) clean(pieces []piece) []piece {
	tol := r.o.Tolerance
	var out []piece
	type key [4]int64
	seen := map[key]bool{}
	points, doubles, centre := 0, 0, 0
	grid := func(v float64) int64 { return int64(math.Round(v / tol)) }
	for _, p := range pieces {
		a, b := p.a, p.b
		if b.x < a.x || b.x == a.x && b.y < a.y {
			a, b = b, a
		}
		m := p.at(0.5)
		k := key{grid(a.x+b.x+m.x) + grid(a.x)<<20, grid(a.y+b.y) + grid(a.y)<<20, grid(m.x), grid(m.y)}
		onX := math.Abs(p.a.x) <= tol && math.Abs(p.b.x) <= tol
		onY := math.Abs(p.a.y) <= tol && math.Abs(p.b.y) <= tol
		switch {
		case p.a.to(p.b) <= tol && (p.radius == 0 || math.Abs(p.radius) <= tol):
			points++
		case seen[k]:
			doubles++
		case p.what == "LINE" && (onX && r.o.Axis != "horizontal" || onY && r.o.Axis == "horizontal"):
			centre++
		default:
			seen[k] = true
			out = append(out, p)
		}
	}
	for _, l := range []struct {
		n         int
		one, many string
	}{
		{points, "piece shorter than the tolerance", "pieces shorter than the tolerance"},
		{doubles, "piece drawn twice", "pieces drawn twice"},
		{centre, "line on the axis", "lines on the axis"},
	} {
		switch {
		case l.n == 1:
			r.note("Left out: 1 %s.", l.one)
		case l.n > 1:
			r.note("Left out: %d %s.", l.n, l.many)
		}
	}
	return out
}

// web is the pieces with the points that their ends share.
type web struct {
	pieces []piece
	nodes  []pt
	ends   [][2]int // nodes of each piece
	at     [][]int  // pieces of each node
}

func newWeb(pieces []piece, tol float64) *web {
	w := &web{pieces: slices.Clone(pieces)}
	cells := map[[2]int64][]int{}
	node := func(p pt) int {
		cx, cy := int64(math.Floor(p.x/tol)), int64(math.Floor(p.y/tol))
		for dx := int64(-1); dx <= 1; dx++ {
			for dy := int64(-1); dy <= 1; dy++ {
				for _, n := range cells[[2]int64{cx + dx, cy + dy}] {
					if w.nodes[n].to(p) <= tol {
						return n
					}
				}
			}
		}
		w.nodes, w.at = append(w.nodes, p), append(w.at, nil)
		cells[[2]int64{cx, cy}] = append(cells[[2]int64{cx, cy}], len(w.nodes)-1)
		return len(w.nodes) - 1
	}
	for i := range w.pieces {
		p := &w.pieces[i]
		a, b := node(p.a), node(p.b)
		p.a, p.b = w.nodes[a], w.nodes[b]
		if chord := p.a.to(p.b); p.radius != 0 && math.Abs(p.radius) < chord/2 {
			p.radius = math.Copysign(chord/2, p.radius)
		}
		w.ends = append(w.ends, [2]int{a, b})
		w.at[a] = append(w.at[a], i)
		if b != a {
			w.at[b] = append(w.at[b], i)
		}
	}
	return w
}

// branches reports points where more than two pieces meet.
func (r *reader) branches(w *web) {
	for n, at := range w.at {
		if len(at) <= 2 {
			continue
		}
		p := w.pieces[at[len(at)-1]]
		r.fault(p.line, p.what, "leave the outer profile alone, or name its layer", "%d pieces meet at x %.4g, y %.4g mm", len(at), w.nodes[n].x*1e3, w.nodes[n].y*1e3)
	}
}

// chain is one line of the web.
type chain struct {
	pieces []piece
	closed bool
}

// chains walks the web; no point of it has more than two pieces.
func (w *web) chains() []chain {
	used := make([]bool, len(w.pieces))
	walk := func(n int) []piece {
		var out []piece
		for {
			next := -1
			for _, i := range w.at[n] {
				if !used[i] {
					next = i
					break
				}
			}
			if next < 0 {
				return out
			}
			used[next] = true
			p := w.pieces[next]
			if w.ends[next][0] == n {
				n = w.ends[next][1]
			} else {
				p, n = p.back(), w.ends[next][0]
			}
			out = append(out, p)
		}
	}
	var out []chain
	for n, at := range w.at {
		if len(at) == 1 && !used[at[0]] && w.ends[at[0]][0] != w.ends[at[0]][1] {
			out = append(out, chain{pieces: walk(n)})
		}
	}
	for i := range w.pieces {
		if !used[i] {
			out = append(out, chain{walk(w.ends[i][0]), true})
		}
	}
	return out
}

// several reports lines that do not join: the nearest gap when it is small,
// else where each of them stands.
func (r *reader) several(open [][]piece) {
	type gap struct {
		d    float64
		p, q piece
		a, b pt
	}
	var gaps []gap
	for i := range open {
		for j := i + 1; j < len(open); j++ {
			best := gap{d: math.Inf(1)}
			for _, p := range ends(open[i]) {
				for _, q := range ends(open[j]) {
					if d := p.a.to(q.a); d < best.d {
						best = gap{d, p, q, p.a, q.a}
					}
				}
			}
			gaps = append(gaps, best)
		}
		if i == 20 {
			break
		}
	}
	sort.SliceStable(gaps, func(i, j int) bool { return gaps[i].d < gaps[j].d })
	const near = 2e-3 // m, that looks like a gap and not like another line
	for i, g := range gaps {
		if g.d > near || i == 10 {
			break
		}
		r.fault(g.p.line, g.p.what, fmt.Sprintf("close it, or allow a tolerance above %.3g mm", g.d*1e3),
			"a gap of %.3g mm, over the tolerance of %.3g mm, between %s and %s (line %d) at x %.4g, y %.4g mm",
			g.d*1e3, r.o.Tolerance*1e3, g.p.what, g.q.what, g.q.line, g.a.x*1e3, g.a.y*1e3)
	}
	if len(r.faults) > 0 {
		return
	}
	sort.SliceStable(open, func(i, j int) bool { return len(open[i]) > len(open[j]) })
	for i, c := range open {
		if i == 5 {
			break
		}
		a, b := c[0].a, c[len(c)-1].b
		r.fault(c[0].line, c[0].layer, "leave the outer profile alone, or name its layer", "%d separate lines; one of %d pieces on layer %q from x %.4g, y %.4g to x %.4g, y %.4g mm",
			len(open), len(c), clip(c[0].layer), a.x*1e3, a.y*1e3, b.x*1e3, b.y*1e3)
	}
}

// ends returns the two end pieces of a line, each with its free end as a.
func ends(c []piece) []piece { return []piece{c[0], c[len(c)-1].back()} }
