package permeation

import (
	"fmt"
	"math"

	"costrel/num/stiff"
)

// Film is one wall between two constant pressures of one gas: a permeation
// test, and the part of the model that has analytic answers.
type Film struct {
	Sorption  Sorption
	Thickness float64 // [m]
	Cells     int     // 0 = 32
	Inside    float64 // pressure of the gas, constant [Pa]
	Outside   float64
	Start     float64 // pressure of the gas that the film is saturated with at first [Pa]
}

// FilmState is a film at one time, per area.
type FilmState struct {
	Time            float64 // [s]
	Entered, Passed float64 // since the start, through the inner face and out of the outer one [mol/m²]
	Held            float64 // [mol/m²]
	Flux            float64 // out of the outer face now [mol/(m²·s)]
}

// Run returns the film at the rising times [s], each reached by whole steps.
// It uses the cells and the method of [Pack.Run].
func (f Film) Run(times []float64) ([]FilmState, error) {
	if f.Cells == 0 {
		f.Cells = 32
	}
	switch {
	case f.Cells < 2 || f.Cells > 2000:
		return nil, fmt.Errorf("permeation: film: %d cells outside 2..2000", f.Cells)
	case !(f.Thickness >= 1e-6 && f.Thickness <= 0.05):
		return nil, fmt.Errorf("permeation: film: thickness ‹%g mm› outside ‹0.001..50 mm›", f.Thickness*1e3)
	case !(f.Sorption.Henry > 0) || !(f.Sorption.Diffusivity > 0) || !(f.Sorption.Capacity >= 0) || !(f.Sorption.Affinity >= 0) || !(f.Sorption.Mobile >= 0 && f.Sorption.Mobile <= 1):
		return nil, fmt.Errorf("permeation: film: sorption %+v, want solubility and diffusivity above 0, the rest not negative", f.Sorption)
	}
	for _, p := range []float64{f.Inside, f.Outside, f.Start} {
		if !(p >= 0 && p <= 2e6) {
			return nil, fmt.Errorf("permeation: film: pressure ‹%g bar› outside ‹0..20 bar›", p/1e5)
		}
	}
	n := f.Cells
	work := make([]float64, 7*n)
	s := slab{dx: f.Thickness / float64(n), cells: n, area: 1, left: -1, s: f.Sorption}
	s.g = s.s.Diffusivity / s.dx
	for _, w := range []*[]float64{&s.theta, &s.slope, &s.diag, &s.up, &s.down, &s.step, &s.answer} {
		*w, work = work[:n], work[n:]
	}
	s.scale = s.s.Concentration(math.Max(math.Max(f.Inside, f.Outside), math.Max(f.Start, 1)))
	// After the cells: entered and passed.
	tab := stiff.ESDIRK4()
	y, next, a := make([]float64, n+2), make([]float64, n+2), make([]float64, n+2)
	k := make([][]float64, len(tab.A))
	for i := range k {
		k[i] = make([]float64, n+2)
	}
	for i := range n {
		y[i] = s.s.Concentration(f.Start)
	}
	s.rates(y, k[0], f.Inside, f.Outside)
	k[0][n], k[0][n+1] = s.in, s.out
	control := stiff.NewController(tab)
	t, h := 0.0, 1e-3*s.dx*s.dx/s.s.Diffusivity
	var out []FilmState
	for i, end := range times {
		if !(end >= t) || math.IsInf(end, 0) {
			return nil, fmt.Errorf("permeation: film: time %d, %g s, does not follow %g s", i+1, end, t)
		}
		for steps := 0; t < end; steps++ {
			if steps > 100000 {
				return nil, fmt.Errorf("permeation: film: more than 100000 steps at %g s", t)
			}
			last := h >= end-t
			if last {
				h = end - t
			}
			copy(next, y)
			ok := true
			for j := 1; j < len(tab.A) && ok; j++ {
				copy(a, y)
				for q := range j {
					for x := range a {
						a[x] += h * tab.A[j][q] * k[q][x]
					}
				}
				ok = s.settle(a, next, k[j], h*tab.Gamma, f.Inside, f.Outside)
			}
			worst := math.NaN()
			if ok {
				worst = 0
				for x := range n {
					var e float64
					for q := range k {
						e += tab.Error[q] * k[q][x]
					}
					worst = math.Max(worst, math.Abs(h*e)/s.scale/1e-7)
				}
			}
			good, propose := control.Next(h, worst)
			if good {
				y, next = next, y
				k[0], k[len(k)-1] = k[len(k)-1], k[0]
				t += h
				if last {
					t = end
				}
			}
			if propose < 1e-9 {
				return nil, fmt.Errorf("permeation: film: the step shrinks to nothing at %g s", t)
			}
			h = propose
		}
		held := 0.0
		for x := range n {
			held += y[x] * s.dx
		}
		out = append(out, FilmState{Time: t, Entered: y[n], Passed: y[n+1], Held: held, Flux: k[0][n+1]})
	}
	return out, nil
}

// settle solves one stage of a film and books its faces after the cells.
func (s *slab) settle(a, y, k []float64, h, inside, outside float64) bool {
	n := s.cells
	for range 20 {
		s.linear(a, y, h, inside, outside)
		worst := s.apply(a, y, h, 0) / s.scale
		if math.IsNaN(worst) {
			return false
		}
		if worst < settled {
			for i := range n {
				k[i] = (y[i] - a[i]) / h
			}
			k[n], k[n+1] = s.in, s.out
			y[n], y[n+1] = a[n]+h*s.in, a[n+1]+h*s.out
			return true
		}
	}
	return false
}

// Lag returns the time lag of a film [s]: where the straight line that the
// passed amount comes to meets zero. The film starts and ends as given.
func (f Film) Lag() (float64, error) {
	// 6 lags of pure solution are more than enough: what is missing falls as
	// exp(-pi² D t/L²). Dual-mode sorption slows it by its slope at least.
	s := f.Sorption
	if !(s.Diffusivity > 0) || !(s.Henry > 0) {
		return 0, fmt.Errorf("permeation: film: sorption %+v, want solubility and diffusivity above 0", s)
	}
	slow := (s.Henry + s.Capacity*s.Affinity) / (s.Henry + s.Mobile*s.Capacity*s.Affinity)
	end := 5 * slow * f.Thickness * f.Thickness / s.Diffusivity
	r, err := f.Run([]float64{end})
	if err != nil {
		return 0, err
	}
	if r[0].Flux == 0 {
		return 0, fmt.Errorf("permeation: film: no flow, no lag")
	}
	return r[0].Time - r[0].Passed/r[0].Flux, nil
}
