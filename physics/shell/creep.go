package shell

import (
	"fmt"
	"math"
)

// Creep is a law of creep under constant load, entered as strain hardening:
// after a change of stress the law goes on from the strain reached, not from
// the time passed.
type Creep interface {
	Name() string
	// Advance returns the equivalent creep strain after dt seconds at the
	// equivalent stress q [Pa] from the strain x, and its slope by q. rate
	// multiplies time-zero compliance: the factor of temperature on m.
	Advance(q, x, dt, rate float64) (after, slope float64)
	// Chain returns the retarded elastic terms, nil for a law of flow.
	Chain() []Kelvin
	check() error
}

// Creeps returns the catalogue, the default first.
func Creeps() []Creep {
	return []Creep{DefaultFindley(), BaileyNorton{A: 1e-30, Q: 3, R: 0.5}, KelvinChain{{Compliance: 0.3, Time: 3600}}, NoCreep{}}
}

// NoCreep is a wall that does not creep.
type NoCreep struct{}

// Name returns "none".
func (NoCreep) Name() string { return "none" }

// Advance implements [Creep].
func (NoCreep) Advance(_, x, _, _ float64) (float64, float64) { return x, 0 }

// Chain implements [Creep].
func (NoCreep) Chain() []Kelvin { return nil }
func (NoCreep) check() error    { return nil }

// primary advances ε = m t^n from x by dt at constant m, exactly.
//
//	x1 = (x^(1/n) + m^(1/n) dt)^n
//
// It returns x1 and dx1/dm.
func primary(m, n, x, dt float64) (float64, float64) {
	if m <= 0 || dt <= 0 {
		return x, 0
	}
	if n == 1 {
		return x + m*dt, dt
	}
	// Scaled by m: x/m and time. Logarithms are cheaper than powers.
	y := 0.0
	if x > 0 {
		y = math.Exp(math.Log(x/m) / n)
	}
	s := math.Exp(n * math.Log(y+dt))
	// x1 = m s(y(x/m)); ds/dm = n s/(y+dt) * dy/dm, dy/dm = -y/(n m).
	return m * s, s - s*y/(y+dt)
}

// Findley is creep of glassy polymers under constant stress,
//
//	ε_c = m t^n     m = M (σ̄/Stress)^Power
//
// with t in seconds: M is the strain after one second at Stress.
// Source: Findley1976 for the form in time (from memory).
type Findley struct {
	M      float64 // strain at Stress after 1 s
	N      float64 // exponent of time, 0.02..1
	Stress float64 // [Pa]
	Power  float64 // exponent of stress, 1..12
}

// DefaultFindley returns m = 0.0015 (σ̄/45 MPa)^1.6 a hour^n with n = 0.18 at
// 23 °C: a placeholder from memory, confidence low, for the wall of a bottle.
// 45 MPa is meant as hoop stress of the closed cylinder, of which the
// equivalent stress is √3/2 and the equivalent strain 2/√3 of the hoop strain.
func DefaultFindley() Findley {
	const n = 0.18
	return Findley{M: 0.0015 * 2 / math.Sqrt(3) * math.Pow(3600, -n), N: n, Stress: 45e6 * math.Sqrt(3) / 2, Power: 1.6}
}

// Name returns "findley".
func (Findley) Name() string { return "findley" }

// Advance implements [Creep].
func (l Findley) Advance(q, x, dt, rate float64) (float64, float64) {
	if q <= 0 || dt <= 0 {
		return x, 0
	}
	m := rate * l.M * math.Exp(l.Power*math.Log(q/l.Stress))
	a, d := primary(m, l.N, x, dt)
	return a, d * m * l.Power / q
}

// Chain implements [Creep].
func (Findley) Chain() []Kelvin { return nil }

func (l Findley) check() error {
	if !(l.M >= 0 && l.M < 1) || !(l.N >= 0.02 && l.N <= 1) || !(l.Stress > 0) || !(l.Power >= 1 && l.Power <= 12) {
		return fmt.Errorf("shell: creep: Findley M %g (0..1), n %g (0.02..1), stress ‹%g Pa›, power %g (1..12)", l.M, l.N, l.Stress, l.Power)
	}
	return nil
}

// BaileyNorton is the rate law
//
//	dε_c/dt = A σ̄^Q t^-R
//
// in SI (σ̄ in Pa, t in s), used in its strain-hardening form. R = 0 is steady
// creep. Source: Bailey1935, Norton1929 (from memory).
type BaileyNorton struct{ A, Q, R float64 }

// Name returns "bailey-norton".
func (BaileyNorton) Name() string { return "bailey-norton" }

// Advance implements [Creep].
func (l BaileyNorton) Advance(q, x, dt, rate float64) (float64, float64) {
	if q <= 0 || dt <= 0 {
		return x, 0
	}
	m := rate * l.A / (1 - l.R) * math.Pow(q, l.Q)
	a, d := primary(m, 1-l.R, x, dt)
	return a, d * m * l.Q / q
}

// Chain implements [Creep].
func (BaileyNorton) Chain() []Kelvin { return nil }

func (l BaileyNorton) check() error {
	if !(l.A >= 0) || math.IsInf(l.A, 0) || !(l.Q >= 1 && l.Q <= 12) || !(l.R >= 0 && l.R <= 0.98) {
		return fmt.Errorf("shell: creep: Bailey-Norton A %g, exponent %g (1..12), r %g (0..0.98)", l.A, l.Q, l.R)
	}
	return nil
}

// Kelvin is one retarded spring: after long time it adds Compliance times the
// elastic compliance of the ply; Time [s] is its time constant.
type Kelvin struct{ Compliance, Time float64 }

// KelvinChain is linear viscoelastic creep, at most four terms in series with
// the elastic wall. It recovers on unloading; the other laws do not. The
// factor of temperature multiplies the compliances.
type KelvinChain []Kelvin

const maxChain = 4

// Name returns "kelvin".
func (KelvinChain) Name() string { return "kelvin" }

// Advance implements [Creep]: a chain does not flow.
func (KelvinChain) Advance(_, x, _, _ float64) (float64, float64) { return x, 0 }

// Chain implements [Creep].
func (k KelvinChain) Chain() []Kelvin { return k }

func (k KelvinChain) check() error {
	if len(k) > maxChain {
		return fmt.Errorf("shell: creep: Kelvin chain of %d terms, at most %d", len(k), maxChain)
	}
	for i, t := range k {
		if !(t.Compliance >= 0 && t.Compliance < 100) || !(t.Time > 0) || math.IsInf(t.Time, 0) {
			return fmt.Errorf("shell: creep: Kelvin term %d: compliance %g (0..100), time %g s (above 0)", i+1, t.Compliance, t.Time)
		}
	}
	return nil
}
