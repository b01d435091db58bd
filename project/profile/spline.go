package profile

import "math"

// nurbs is a rational B-spline in the plane.
type nurbs struct {
	degree  int
	knots   []float64
	points  []pt
	weights []float64
}

// maxDegree is the highest degree of a spline that is read.
const maxDegree = 15

// spline samples a SPLINE: by its control points, or else through its fit
// points.
func (d *drawing) spline(e entity, as piece) []piece {
	s := nurbs{degree: int(d.number(e, 71, 3))}
	var fit []pt
	for _, g := range e.pairs {
		switch g.code {
		case 40:
			s.knots = append(s.knots, d.value(e, g))
		case 41:
			s.weights = append(s.weights, d.value(e, g))
		case 10:
			s.points = append(s.points, pt{x: d.value(e, g) * d.scale})
		case 20:
			if n := len(s.points); n > 0 {
				s.points[n-1].y = d.value(e, g) * d.scale
			}
		case 11:
			fit = append(fit, pt{x: d.value(e, g) * d.scale})
		case 21:
			if n := len(fit); n > 0 {
				fit[n-1].y = d.value(e, g) * d.scale
			}
		}
	}
	if len(s.points) == 0 && len(fit) > 1 {
		return chords(fit, as)
	}
	if !s.sound() {
		d.fault(e.line, e.kind, "draw it again, or make it a polyline", "a spline of degree %d with %d knots, %d points and %d weights", s.degree, len(s.knots), len(s.points), len(s.weights))
		return nil
	}
	return chords(s.sample(d.o.Tolerance), as)
}

// sound tells whether the numbers make a spline.
func (s *nurbs) sound() bool {
	n := len(s.points)
	if s.degree < 1 || s.degree > maxDegree || n < s.degree+1 || len(s.knots) != n+s.degree+1 {
		return false
	}
	for i := 1; i < len(s.knots); i++ {
		if s.knots[i] < s.knots[i-1] {
			return false
		}
	}
	if s.weights == nil {
		s.weights = make([]float64, n)
		for i := range s.weights {
			s.weights[i] = 1
		}
	}
	if len(s.weights) != n || !(s.knots[n] > s.knots[s.degree]) {
		return false
	}
	for _, w := range s.weights {
		if !(w > 0) {
			return false
		}
	}
	return true
}

// at returns the point at t by de Boor's recurrence on homogeneous points.
// Source: de Boor, On calculating with B-splines, 1972 (from memory).
func (s *nurbs) at(t float64) pt {
	p := s.degree
	k := p
	for k < len(s.points)-1 && t >= s.knots[k+1] {
		k++
	}
	var x, y, w [maxDegree + 1]float64
	for j := 0; j <= p; j++ {
		i := k - p + j
		w[j] = s.weights[i]
		x[j], y[j] = s.points[i].x*w[j], s.points[i].y*w[j]
	}
	for r := 1; r <= p; r++ {
		for j := p; j >= r; j-- {
			i := k - p + j
			a := 0.0
			if d := s.knots[i+p-r+1] - s.knots[i]; d > 0 {
				a = (t - s.knots[i]) / d
			}
			x[j] = (1-a)*x[j-1] + a*x[j]
			y[j] = (1-a)*y[j-1] + a*y[j]
			w[j] = (1-a)*w[j-1] + a*w[j]
		}
	}
	return pt{x[p] / w[p], y[p] / w[p]}
}

// sample returns points of the spline, no chord further off it than the
// tolerance, each knot span in at least two chords.
func (s *nurbs) sample(tolerance float64) []pt {
	lo, hi := s.knots[s.degree], s.knots[len(s.points)]
	out := []pt{s.at(lo)}
	var halve func(a, b float64, pa, pb pt, depth int)
	halve = func(a, b float64, pa, pb pt, depth int) {
		m := (a + b) / 2
		pm := s.at(m)
		if depth <= 0 && offChord(pa, pb, pm) <= tolerance || depth < -8 {
			out = append(out, pb)
			return
		}
		halve(a, m, pa, pm, depth-1)
		halve(m, b, pm, pb, depth-1)
	}
	for i := s.degree; i < len(s.points); i++ {
		a, b := math.Max(lo, s.knots[i]), math.Min(hi, s.knots[i+1])
		if b > a && len(out) < maxPieces {
			halve(a, b, s.at(a), s.at(b), 1)
		}
	}
	return out
}

// offChord returns how far m lies off the line through a and b [m].
func offChord(a, b, m pt) float64 {
	chord := a.to(b)
	if chord == 0 {
		return a.to(m)
	}
	return math.Abs((b.x-a.x)*(m.y-a.y)-(b.y-a.y)*(m.x-a.x)) / chord
}

// chords joins points of a curve.
func chords(points []pt, as piece) []piece {
	var out []piece
	for i := 1; i < len(points); i++ {
		p := as
		p.a, p.b, p.curve, p.first = points[i-1], points[i], true, i == 1
		out = append(out, p)
	}
	return out
}
