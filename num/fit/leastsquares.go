package fit

import (
	"errors"
	"fmt"
	"math"
)

// Problem is a least-squares problem: residuals r(x), already over their
// standard deviations where these are known, to be made small.
type Problem struct {
	// Residual writes the residuals at x to r, of length Residuals. It must be
	// smooth in x between the bounds.
	Residual  func(x, r []float64) error
	Residuals int
	Start     []float64
	Low, High []float64 // bounds, Low < High
	// Step is the step of the differences for each parameter; 0 takes 1e-4 of
	// the distance of the bounds. Larger than the noise of the model.
	Step []float64
	// Settle ends the search when no parameter moves by more than this share of
	// the distance of its bounds, or when a step lessens the sum of squares by
	// less than this share; 0 asks for 1e-6 and 1e-10 of them together. Set it
	// where the model is slow and its noise leaves no more than that.
	Settle float64
	// OneSided takes the slopes of the search from one more evaluation a
	// parameter instead of two. Those of the result stay central.
	OneSided bool
}

// Result is the solution.
type Result struct {
	X          []float64
	Residual   []float64
	Jacobian   [][]float64 // dr_i/dx_j at X
	SumSquares float64
	// Bound tells the parameters that end on a bound. They have no covariance;
	// the bound, not the data, has set them.
	Bound []bool
	// Inverse is (JᵀJ)⁻¹ over the free parameters, 0 elsewhere: the covariance
	// where the residuals are over their standard deviations, to be multiplied
	// by SumSquares/Freedom where they are not.
	Inverse    [][]float64
	Freedom    int // residuals less free parameters
	Iterations int
}

// Limits of a problem.
const (
	maxParameters = 50
	maxResiduals  = 100000
	maxIterations = 200
)

// ErrNoConvergence is wrapped where the iteration does not settle.
var ErrNoConvergence = errors.New("no convergence")

// LeastSquares minimises the sum of the squared residuals between the bounds.
//
//	(JᵀJ + mu diag(JᵀJ)) d = -Jᵀr
//
// by Levenberg's and Marquardt's iteration with the Jacobian from central
// differences (one-sided at a bound). A parameter on a bound that the gradient
// pushes outwards is held there; the others go on. The answer is a local
// minimum: start near it.
//
// Errors: bounds or start that make no sense; fewer residuals than parameters;
// residuals that are not finite; parameters that the residuals do not tell
// apart; no convergence in 200 iterations. Source: Marquardt1963.
func LeastSquares(p Problem) (Result, error) {
	if err := p.check(); err != nil {
		return Result{}, err
	}
	s := &search{Problem: p, n: len(p.Start)}
	s.x = append([]float64(nil), p.Start...)
	s.r = make([]float64, p.Residuals)
	s.trial, s.rt = make([]float64, s.n), make([]float64, p.Residuals)
	s.jac = make([][]float64, p.Residuals)
	for i := range s.jac {
		s.jac[i] = make([]float64, s.n)
	}
	return s.run()
}

func (p *Problem) check() error {
	n := len(p.Start)
	switch {
	case p.Residual == nil:
		return errors.New("fit: no residuals given")
	case n < 1 || n > maxParameters:
		return fmt.Errorf("fit: %d parameters outside 1..%d", n, maxParameters)
	case p.Residuals < n || p.Residuals > maxResiduals:
		return fmt.Errorf("fit: %d residuals for %d parameters, want as many to %d", p.Residuals, n, maxResiduals)
	case len(p.Low) != n || len(p.High) != n:
		return fmt.Errorf("fit: %d and %d bounds for %d parameters", len(p.Low), len(p.High), n)
	case p.Step != nil && len(p.Step) != n:
		return fmt.Errorf("fit: %d steps for %d parameters", len(p.Step), n)
	case !(p.Settle >= 0 && p.Settle < 0.1):
		return fmt.Errorf("fit: settle %g outside 0..0.1", p.Settle)
	}
	for i := range n {
		if !(p.Low[i] < p.High[i]) || math.IsInf(p.High[i]-p.Low[i], 0) {
			return fmt.Errorf("fit: parameter %d: bounds %g..%g", i, p.Low[i], p.High[i])
		}
		if !(p.Start[i] >= p.Low[i] && p.Start[i] <= p.High[i]) {
			return fmt.Errorf("fit: parameter %d: start %g outside %g..%g", i, p.Start[i], p.Low[i], p.High[i])
		}
	}
	return nil
}

type search struct {
	Problem
	n     int
	x, r  []float64
	trial []float64
	rt    []float64
	jac   [][]float64
}

// residual evaluates and returns the sum of squares.
func (s *search) residual(x, r []float64) (float64, error) {
	if err := s.Residual(x, r); err != nil {
		return 0, fmt.Errorf("fit: at %.6g: %w", x, err)
	}
	var sum float64
	for _, v := range r {
		sum += v * v
	}
	if math.IsNaN(sum) || math.IsInf(sum, 0) {
		return 0, fmt.Errorf("fit: at %.6g: a residual is not finite", x)
	}
	return sum, nil
}

// differentiate fills the Jacobian at x, where the residuals are s.r.
func (s *search) differentiate(central bool) error {
	low, high := make([]float64, s.Residuals), make([]float64, s.Residuals)
	at := make([]float64, s.n)
	for j := range s.n {
		h := 1e-4 * (s.High[j] - s.Low[j])
		if s.Step != nil && s.Step[j] > 0 {
			h = s.Step[j]
		}
		a, b := math.Max(s.x[j]-h, s.Low[j]), math.Min(s.x[j]+h, s.High[j])
		if !central {
			// Towards the farther bound, which leaves room for the step.
			if s.High[j]-s.x[j] >= s.x[j]-s.Low[j] {
				a = s.x[j]
			} else {
				b = s.x[j]
			}
		}
		for _, side := range []struct {
			x float64
			r []float64
		}{{a, low}, {b, high}} {
			if side.x == s.x[j] {
				copy(side.r, s.r)
				continue
			}
			copy(at, s.x)
			at[j] = side.x
			if _, err := s.residual(at, side.r); err != nil {
				return err
			}
		}
		for i := range low {
			s.jac[i][j] = (high[i] - low[i]) / (b - a)
		}
	}
	return nil
}

func (s *search) run() (Result, error) {
	sum, err := s.residual(s.x, s.r)
	if err != nil {
		return Result{}, err
	}
	mu := 1e-3
	for iteration := 1; iteration <= maxIterations; iteration++ {
		if err := s.differentiate(!s.OneSided); err != nil {
			return Result{}, err
		}
		g, h := s.normal()
		held := make([]bool, s.n)
		for j := range s.n {
			held[j] = s.x[j] <= s.Low[j] && g[j] > 0 || s.x[j] >= s.High[j] && g[j] < 0
		}
		settled := false
		for {
			d, ok := step(h, g, held, mu)
			if !ok {
				return Result{}, errors.New("fit: the residuals do not depend on a parameter, or do not tell two apart")
			}
			moved := 0.0
			for j := range s.n {
				s.trial[j] = math.Min(math.Max(s.x[j]+d[j], s.Low[j]), s.High[j])
				moved = math.Max(moved, math.Abs(s.trial[j]-s.x[j])/(s.High[j]-s.Low[j]))
			}
			next, err := s.residual(s.trial, s.rt)
			if err != nil {
				return Result{}, err
			}
			if next <= sum {
				settled = sum-next <= 1e-10*sum && moved < 1e-6 || moved < 1e-10 || moved < s.Settle || sum-next < s.Settle*sum
				s.x, s.trial = s.trial, s.x
				s.r, s.rt = s.rt, s.r
				sum = next
				mu = math.Max(mu/10, 1e-12)
				break
			}
			if moved < math.Max(1e-9, s.Settle) {
				settled = true
				break
			}
			mu *= 10
			if mu > 1e14 {
				settled = true
				break
			}
		}
		if settled {
			return s.result(sum, iteration)
		}
	}
	return Result{}, fmt.Errorf("fit: %w in %d iterations at %.6g, sum of squares %.6g", ErrNoConvergence, maxIterations, s.x, sum)
}

// normal returns Jᵀr and JᵀJ.
func (s *search) normal() (g []float64, h [][]float64) {
	g = make([]float64, s.n)
	h = make([][]float64, s.n)
	for j := range h {
		h[j] = make([]float64, s.n)
	}
	for i, row := range s.jac {
		for j, a := range row {
			g[j] += a * s.r[i]
			for k, b := range row {
				h[j][k] += a * b
			}
		}
	}
	return g, h
}

func (s *search) result(sum float64, iterations int) (Result, error) {
	if err := s.differentiate(true); err != nil {
		return Result{}, err
	}
	_, h := s.normal()
	out := Result{X: s.x, Residual: s.r, Jacobian: s.jac, SumSquares: sum, Bound: make([]bool, s.n), Iterations: iterations}
	free := 0
	for j := range s.n {
		out.Bound[j] = s.x[j] <= s.Low[j] || s.x[j] >= s.High[j]
		if !out.Bound[j] {
			free++
		}
	}
	out.Freedom = s.Residuals - free
	out.Inverse = make([][]float64, s.n)
	for j := range s.n {
		out.Inverse[j] = make([]float64, s.n)
	}
	for j := range s.n {
		if out.Bound[j] {
			continue
		}
		e := make([]float64, s.n)
		e[j] = -1 // step solves for -g
		d, ok := step(h, e, out.Bound, 0)
		if !ok {
			return Result{}, errors.New("fit: the residuals do not tell the parameters apart")
		}
		for k := range s.n {
			out.Inverse[k][j] = d[k]
		}
	}
	return out, nil
}

// step solves (H + mu diag H) d = -g over the parameters that are not held, by
// Cholesky's factors of the matrix scaled to a unit diagonal.
func step(h [][]float64, g []float64, held []bool, mu float64) ([]float64, bool) {
	n := len(g)
	d := make([]float64, n)
	var at []int
	scale := make([]float64, n)
	for j := range n {
		if held[j] {
			continue
		}
		if !(h[j][j] > 0) {
			return nil, false
		}
		scale[j] = 1 / math.Sqrt(h[j][j])
		at = append(at, j)
	}
	m := len(at)
	l := make([][]float64, m)
	for i := range m {
		l[i] = make([]float64, m)
		for k := 0; k <= i; k++ {
			v := h[at[i]][at[k]] * scale[at[i]] * scale[at[k]]
			if i == k {
				v = 1 + mu
			}
			for q := range k {
				v -= l[i][q] * l[k][q]
			}
			if i == k {
				if v < 1e-13 {
					return nil, false
				}
				l[i][i] = math.Sqrt(v)
			} else {
				l[i][k] = v / l[k][k]
			}
		}
	}
	y := make([]float64, m)
	for i := range m {
		y[i] = -g[at[i]] * scale[at[i]]
		for q := range i {
			y[i] -= l[i][q] * y[q]
		}
		y[i] /= l[i][i]
	}
	for i := m - 1; i >= 0; i-- {
		for q := i + 1; q < m; q++ {
			y[i] -= l[q][i] * y[q]
		}
		y[i] /= l[i][i]
		d[at[i]] = y[i] * scale[at[i]]
	}
	return d, true
}
