package drawdown

import (
	"fmt"
	"math"

	"costrel/num/curve"
)

// through returns the mass along the grid that puts zones[i] [kg] into section
// i. Inside the sections the mass is a monotone cubic of a reference measure,
// the surface weighted with the shape of the wall, so that the wall is smooth
// across the planes; on top of it stand what the gate and the neck keep of the
// preform, whose mass is taken out of the sections they lie in.
func (g *grid) through(zones []float64, shape Shape) (mapping, []string, error) {
	n := len(g.f)
	ref := g.reference(shape.Blend)
	x := g.cumulate(ref)
	gate, neck := make([]float64, n), make([]float64, n)
	length := g.b.ArcLength()
	for k, f := range g.f {
		if shape.GateReach > 0 {
			gate[k] = math.Exp(-math.Pow(f.S/shape.GateReach, 2))
		}
		if shape.NeckReach > 0 {
			neck[k] = math.Exp(-(length - f.S) / shape.NeckReach)
		}
	}
	gateSum, neckSum := g.cumulate(gate), g.cumulate(neck)

	// anchors: gate, planes, ledge
	nodes := append(append([]int{0}, g.cut...), n-1)
	ax, ay := make([]float64, len(nodes)), make([]float64, len(nodes))
	for i, k := range nodes {
		ax[i] = x[k]
	}
	gateGoal := g.density * areal(shape.GateWall, g.f[0])
	neckGoal := g.neckAreal()
	// amplitudes [kg/m²] that bring gate and ledge to their goals; they move
	// the anchors, which move the wall they stand on: a contraction
	var eg, en float64
	var slopes []float64
	var warnings []string
	var lean bool
	for iter := 0; ; iter++ {
		for i := 1; i < len(nodes); i++ {
			a, b := nodes[i-1], nodes[i]
			inGate, inNeck := gateSum[b]-gateSum[a], neckSum[b]-neckSum[a]
			extra := eg*inGate + en*inNeck
			if most := 0.5 * zones[i-1]; extra > most {
				eg, en, extra = eg*most/extra, en*most/extra, most
				lean = true
			}
			ay[i] = ay[i-1] + zones[i-1] - extra
		}
		slopes = curve.MonotoneSlopes(ax, ay)
		if lean && iter > 0 || iter == 100 {
			break
		}
		eg2, en2 := 0.0, 0.0
		if shape.GateReach > 0 {
			eg2 = math.Max(0, gateGoal-slopes[0]*ref[0]-en*neck[0])
		}
		if shape.NeckReach > 0 {
			en2 = math.Max(0, neckGoal-slopes[len(nodes)-1]*ref[n-1]-eg*gate[n-1])
		}
		done := math.Abs(eg2-eg)+math.Abs(en2-en) <= 1e-12*(eg2+en2)
		eg, en = eg2, en2
		if done && iter > 0 {
			break
		}
	}
	// anchors for the amplitudes as they stand
	for i := 1; i < len(nodes); i++ {
		a, b := nodes[i-1], nodes[i]
		ay[i] = ay[i-1] + zones[i-1] - eg*(gateSum[b]-gateSum[a]) - en*(neckSum[b]-neckSum[a])
		if !(ay[i] > ay[i-1]) {
			return mapping{}, nil, fmt.Errorf("draw-down: section %d of %.2f g has no material left beside what gate and neck keep: give it more, or shorten their reach", i, zones[i-1]*1e3)
		}
	}
	slopes = curve.MonotoneSlopes(ax, ay)
	if lean {
		warnings = append(warnings, "what the gate or the neck keeps of the preform was cut to half of its section: the section is light for this preform")
	}
	m := mapping{make([]float64, n), make([]float64, n)}
	for k := range g.f {
		y, d := curve.Hermite(ax, ay, slopes, x[k])
		m.mass[k] = y + eg*gateSum[k] + en*neckSum[k]
		m.areal[k] = d*ref[k] + eg*gate[k] + en*neck[k]
	}
	m.mass[n-1] = g.p.MassBelowLedge()
	return m, warnings, nil
}

// reference returns the shape of the wall before it is fitted: (preform radius
// over bottle radius)^blend, the preform stretched evenly along its mid-line.
func (g *grid) reference(blend float64) []float64 {
	out := make([]float64, len(g.f))
	k := g.p.ArcLength() / g.b.ArcLength()
	for i, f := range g.f {
		q := k // limit on the axis, both radii growing with the arc
		if f.R > 0 && f.S > 0 {
			q = g.p.At(f.S*k).Rm / f.R
		}
		out[i] = math.Pow(q, blend)
	}
	return out
}

// neckAreal returns the mass a surface at the ledge [kg/m²] of a neck drawn
// neither along the axis nor thinner inside than the bore of the preform.
func (g *grid) neckAreal() float64 {
	end := g.p.At(g.p.ArcLength())
	f := g.f[len(g.f)-1]
	most := g.density * areal((f.R-end.Ri)/math.Max(f.NR, 0.5), f)
	return math.Min(end.Rate/(2*math.Pi*f.R), most)
}

// areal returns the volume of wall t a surface of outer face [m].
//
//	t - (κ1+κ2) t²/2 + κ1 κ2 t³/3
func areal(t float64, f curve.Frame) float64 {
	return t - (f.K1+f.K2)*t*t/2 + f.K1*f.K2*t*t*t/3
}

// walls returns the thickness along the normal [m] at the nodes.
func (g *grid) walls(m mapping) ([]float64, error) {
	out := make([]float64, len(g.f))
	for i, f := range g.f {
		want := m.areal[i] / g.density
		t := want
		for range 50 {
			d := (1 - f.K1*t) * (1 - f.K2*t)
			step := (areal(t, f) - want) / d
			t -= step
			if math.Abs(step) <= 1e-14*want {
				break
			}
		}
		if !(t > 0) || 1-f.K1*t <= 0.02 || 1-f.K2*t <= 0.02 {
			return nil, fmt.Errorf("draw-down: at z ‹%.4g mm› the material for a wall of about ‹%.3g mm› does not fit inside the radius of ‹%.3g mm›: move the cut planes, take material out of the section, or enlarge the radius",
				f.Z*1e3, want*1e3, 1e3/math.Max(math.Max(f.K1, f.K2), 1e-9))
		}
		out[i] = t
	}
	return out, nil
}

// span is a stretch of the grid whose solid mass is held.
type span struct {
	name     string
	from, to int     // nodes
	s0, s1   float64 // arc lengths [m]
}

// spans returns the sections, or the whole bottle where no section is held.
func (g *grid) spans(whole bool) []span {
	last := len(g.f) - 1
	if whole {
		return []span{{"whole", 0, last, 0, g.b.ArcLength()}}
	}
	var out []span
	from := 0
	for i, z := range g.zones {
		to := last
		if i < len(g.cut) {
			to = g.cut[i]
		}
		out = append(out, span{z.Name, from, to, z.S0, z.S1})
		from = to
	}
	return out
}

// solid returns the thickness [m] at the nodes such that the solid between the
// faces, corners and the cut at the ledge included, has the mass of the map in
// every span. again returns the map with the masses of the spans scaled; the
// scales differ from 1 by parts in a hundred, and settle in a few rounds.
func (g *grid) solid(m mapping, spans []span, again func(scale []float64) (mapping, error)) ([]float64, error) {
	scale := make([]float64, len(spans))
	for i := range scale {
		scale[i] = 1
	}
	wall := curve.Wall{S: make([]float64, len(g.f))}
	for k, f := range g.f {
		wall.S[k] = f.S
	}
	now := m
	for range 6 {
		w, err := g.walls(now)
		if err != nil {
			return nil, err
		}
		wall.T = w
		worst := 0.0
		for i, z := range spans {
			sh, err := g.b.Outline().Shell(wall, z.s0, z.s1)
			if err != nil {
				return nil, fmt.Errorf("draw-down: %w", err)
			}
			want, have := m.mass[z.to]-m.mass[z.from], sh.Volume*g.density
			if k := want / have; k > 0.5 && k < 2 {
				scale[i] *= k
				worst = math.Max(worst, math.Abs(k-1))
				continue
			}
			return nil, fmt.Errorf("draw-down: the %s section holds %.2f g as a solid of the wall for %.2f g: its corners are too sharp for this wall", z.name, have*1e3, want*1e3)
		}
		if worst < 1e-6 {
			return w, nil
		}
		if now, err = again(scale); err != nil {
			return nil, err
		}
	}
	return g.walls(now)
}
