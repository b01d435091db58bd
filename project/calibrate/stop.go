package calibrate

import (
	"fmt"
	"math"

	"costrel/num/dist"
	"costrel/physics/permeation"
)

// Plan is a series of further pulls and what it would settle.
type Plan struct {
	Times   []float64 // of the further pulls [s]
	Bottles int       // at each of them
	Half    float64   // half width of the interval of the loss they would leave
	// Decides tells whether that interval clears the limit if the estimate stays
	// where it is.
	Decides bool
}

// Verdict is what the pulls say about a limit on the loss.
type Verdict string

// The verdicts: the whole interval is within, beyond, or straddles the limit.
const (
	Within   Verdict = "within"
	Beyond   Verdict = "beyond"
	NotShown Verdict = "not shown"
)

// Stop is the stop rule: where the pulls stand and what would settle them.
type Stop struct {
	Now     Prediction
	Limit   float64
	Verdict Verdict
	Plans   []Plan
	// First is the index of the first plan that decides, -1 where none does:
	// then the estimate is closer to the limit than any of them can tell. Gain
	// margin or claim a shorter life.
	First int
	// Margin is how far the loss must fall for the last plan to show it within
	// the limit; 0 where it does.
	Margin float64
	// Refused is that of the fit: then the verdict is not shown and no plan is
	// drawn up, for more pulls do not mend it.
	Refused string
}

// Stop returns the verdict on a limit of the loss at the time at, and for
// every plan of further pulls the interval it would leave. Each plan opens
// bottles at the times of further, the first of them, the first two, and so on;
// the scatter stays that of the fit.
//
//	info' = info + sum of bottles j jᵀ,  half = t sqrt(gᵀ info'⁻¹ g)
//
// with j the slope of a reading and g that of the loss in the parameters.
// further must lie after the last pull, rising; bottles 1..1000.
func (f *PullFit) Stop(limit, at, confidence float64, from permeation.Reference, further []float64, bottles []int) (Stop, error) {
	if !(limit > 0 && limit < 1) {
		return Stop{}, fmt.Errorf("calibrate: stop: limit %g outside 0..1", limit)
	}
	if from == "" {
		from = permeation.FirstDay
	}
	now, err := f.Predict(at, confidence, from)
	if err != nil {
		return Stop{}, err
	}
	s := Stop{Now: now, Limit: limit, Verdict: NotShown, First: -1}
	switch {
	case now.Hi <= limit:
		s.Verdict = Within
	case now.Lo > limit:
		s.Verdict = Beyond
	}
	last := f.last
	for i, t := range further {
		if !(t > last) {
			return Stop{}, fmt.Errorf("calibrate: stop: further pull %d at %g d does not follow the one before at %g d", i+1, t/day, last/day)
		}
		last = t
	}
	for _, n := range bottles {
		if n < 1 || n > 1000 {
			return Stop{}, fmt.Errorf("calibrate: stop: %d bottles outside 1..1000", n)
		}
	}
	if s.Refused = f.Refused; s.Refused != "" {
		s.Verdict = NotShown
		return s, nil
	}
	if len(further) == 0 {
		return s, nil
	}
	_, _, g, err := f.loss(at, from)
	if err != nil {
		return Stop{}, err
	}
	j, err := f.slopes(further)
	if err != nil {
		return Stop{}, err
	}
	for k := range further {
		for _, n := range bottles {
			info := make([][]float64, len(f.x))
			for a := range info {
				info[a] = append([]float64(nil), f.info[a]...)
				for b := range info {
					for i := 0; i <= k; i++ {
						info[a][b] += float64(n) * j[i][a] * j[i][b] / (f.sigma * f.sigma)
					}
				}
			}
			v, ok := solve(info, g)
			if !ok {
				return Stop{}, fmt.Errorf("calibrate: stop: the pulls do not tell the parameters apart")
			}
			sigma, df, err := f.counted(f.Freedom+n*(k+1), confidence)
			if err != nil {
				return Stop{}, err
			}
			q, err := dist.StudentQuantile((1+confidence)/2, df)
			if err != nil {
				return Stop{}, fmt.Errorf("calibrate: stop: %w", err)
			}
			q *= sigma / f.sigma
			sum := 0.0
			for i := range g {
				sum += g[i] * v[i]
			}
			p := Plan{Times: append([]float64(nil), further[:k+1]...), Bottles: n, Half: q * math.Sqrt(math.Max(sum, 0))}
			p.Decides = math.Abs(now.Loss-limit) > p.Half
			if p.Decides && s.First < 0 {
				s.First = len(s.Plans)
			}
			s.Plans = append(s.Plans, p)
		}
	}
	if p := s.Plans[len(s.Plans)-1]; now.Loss+p.Half > limit {
		s.Margin = now.Loss + p.Half - limit
	}
	return s, nil
}

// slopes returns the slopes of the carbonation at the times in the parameters.
func (f *PullFit) slopes(times []float64) ([][]float64, error) {
	out := make([][]float64, len(times))
	for i := range out {
		out[i] = make([]float64, len(f.x))
	}
	for i := range f.x {
		x := append([]float64(nil), f.x...)
		x[i] += step
		a, err := f.curve(x, times)
		if err != nil {
			return nil, err
		}
		x[i] -= 2 * step
		b, err := f.curve(x, times)
		if err != nil {
			return nil, err
		}
		for k := range times {
			out[k][i] = (a[k] - b[k]) / (2 * step)
		}
	}
	return out, nil
}

// solve solves a symmetric positive system by elimination.
func solve(a [][]float64, r []float64) ([]float64, bool) {
	n := len(r)
	x := append([]float64(nil), r...)
	for k := range n {
		if !(a[k][k] > 0) {
			return nil, false
		}
		for i := k + 1; i < n; i++ {
			m := a[i][k] / a[k][k]
			for j := k; j < n; j++ {
				a[i][j] -= m * a[k][j]
			}
			x[i] -= m * x[k]
		}
	}
	for k := n - 1; k >= 0; k-- {
		for j := k + 1; j < n; j++ {
			x[k] -= a[k][j] * x[j]
		}
		x[k] /= a[k][k]
	}
	return x, true
}
