package resin

import (
	"fmt"
	"math"

	"costrel/num/root"
	"costrel/unit"
)

// Quiescent is the crystallisation of PET that nobody stretches, from the
// glass: the haze of an overheated preform, a crystallised neck, the gate.
//
//	dX/dt = n K (1 - X) (-ln(1 - X))^((n-1)/n)        Nakamura1973
//	K     = (ln 2)^(1/n) / t_half(T)
//	t_half(T) = t_min g(T_max)/g(T)
//	g     = exp( -U/(R (T - T_inf)) - K_g (T + T_m)/(2 T² (T_m - T)) )
//
// X is relative: 1 is all that will crystallise, not all crystal. At constant
// or changing temperature the law integrates to X = 1 - exp(-theta^n) with
// theta the integral of K over time: sum theta, then ask [Quiescent.Relative].
//
// U, T_m: HoffmanDavisLauritzen1976, from memory. K_g and T_inf: chosen for
// this project so that the heating peak at 10 K/min comes at 136 °C, inside
// the 130 to 146 °C of three curves that were read.
type Quiescent struct {
	Activation float64 // U [J/mol]
	Frozen     float64 // T_inf, where motion ends [K]
	Nucleation float64 // K_g [K²]
	Melting    float64 // T_m, equilibrium [K]
	Order      float64 // n
	HalfMin    float64 // t_min, shortest half-time [s]
	Fastest    float64 // T_max, where t_half = t_min [K]; set by NewQuiescent
}

// HazeRelative is the relative crystallisation of an unstretched wall from
// which a preform looks hazy. Common practice, 1 to 2 %, from memory.
const HazeRelative = 0.01

// NewQuiescent returns the crystallisation law of a grade: its shortest
// half-time and equilibrium melting point with the default shape over
// temperature. It fails on a half-time or melting point that cannot be.
func NewQuiescent(g Grade) (Quiescent, error) {
	q := Quiescent{Activation: 6270, Frozen: 310, Nucleation: 5e5, Melting: float64(g.MeltingEquilibrium), Order: 3, HalfMin: g.HalfTime}
	return q.withPeak()
}

// withPeak checks the law and finds the temperature of the shortest half-time.
// ln g has one peak between its two poles.
func (q Quiescent) withPeak() (Quiescent, error) {
	switch {
	case !(q.HalfMin > 0) || math.IsInf(q.HalfMin, 0):
		return Quiescent{}, fmt.Errorf("resin: crystallisation: shortest half-time %g s not above 0", q.HalfMin)
	case !(q.Frozen > 0 && q.Melting > q.Frozen+50 && q.Melting < 700):
		return Quiescent{}, fmt.Errorf("resin: crystallisation: melting point %g K not 50 K above the frozen end %g K and below 700 K", q.Melting, q.Frozen)
	case !(q.Activation > 0 && q.Activation < 1e5 && q.Nucleation > 0 && q.Nucleation < 1e7):
		return Quiescent{}, fmt.Errorf("resin: crystallisation: activation %g J/mol or nucleation %g K² out of range", q.Activation, q.Nucleation)
	case !(q.Order >= 1 && q.Order <= 4):
		return Quiescent{}, fmt.Errorf("resin: crystallisation: order %g outside 1..4", q.Order)
	}
	q.Fastest, _ = root.Peak(q.logG, q.Frozen+1, q.Melting-1, 1e-9)
	return q, nil
}

// logG is ln g between the poles.
func (q Quiescent) logG(T float64) float64 {
	return -q.Activation/(unit.GasConstant*(T-q.Frozen)) - q.Nucleation*(T+q.Melting)/(2*T*T*(q.Melting-T))
}

// Rate returns K [1/s] at the temperature T [K]; 0 where nothing moves (below
// T_inf) and where nothing crystallises (above T_m).
func (q Quiescent) Rate(T float64) float64 {
	if !(T > q.Frozen && T < q.Melting) || q.HalfMin <= 0 {
		return 0
	}
	return math.Pow(math.Ln2, 1/q.Order) / q.HalfMin * math.Exp(q.logG(T)-q.logG(q.Fastest))
}

// HalfTime returns the time [s] to half of what will crystallise, held at a
// constant temperature: 611, 213, 103, 63 and 45 s at 110, 120, 130, 140 and
// 160 °C for a shortest of 45 s. It refuses temperatures at which the answer
// is longer than 1e9 s.
func (q Quiescent) HalfTime(t unit.Temperature) (float64, error) {
	k := q.Rate(float64(t))
	if !(k > 1e-9) {
		return 0, fmt.Errorf("resin: crystallisation: none at ‹%.1f °C›: it goes on between ‹%.0f and %.0f °C›", t.Celsius(), q.Frozen-273.15, q.Melting-273.15)
	}
	return math.Pow(math.Ln2, 1/q.Order) / k, nil
}

// Relative returns X in 0..1 of the sum theta of K over time.
func (q Quiescent) Relative(theta float64) float64 {
	if !(theta > 0) {
		return 0
	}
	return -math.Expm1(-math.Pow(theta, q.Order))
}

// Advance returns X after dt [s] at the temperature T [K]: exact for constant
// T, and for any course when cut into short steps. X outside 0..1 is held
// inside.
func (q Quiescent) Advance(x, T, dt float64) float64 {
	if !(x > 0) {
		x = 0
	}
	if x >= 1 {
		return 1
	}
	theta := math.Pow(-math.Log1p(-x), 1/q.Order)
	if dt > 0 {
		theta += q.Rate(T) * dt
	}
	return q.Relative(theta)
}

// HeatingPeak returns the temperature [K] at which crystallisation is fastest
// while the glass is heated at a constant rate [K/s] from 340 K: the peak of
// a calorimeter curve. Rates of 0.01 to 5 K/s.
func (q Quiescent) HeatingPeak(rate float64) (unit.Temperature, error) {
	if !(rate >= 0.01 && rate <= 5) {
		return 0, fmt.Errorf("resin: crystallisation: heating rate %g K/s outside 0.01..5 K/s", rate)
	}
	const step = 0.02 // K
	theta, top, at := 0.0, 0.0, 0.0
	for T := 340.0; T < q.Melting; T += step {
		k := q.Rate(T + step/2)
		theta += k * step / rate
		if v := k * math.Pow(theta, q.Order-1) * math.Exp(-math.Pow(theta, q.Order)); v > top {
			top, at = v, T+step
		}
	}
	return unit.Temperature(at), nil
}

// RateTable is K over temperature, read by linear interpolation of ln K: what
// an inner loop uses.
type RateTable struct {
	low, high, per float64
	ln             []float64
}

// Table returns K tabulated every 0.5 K from 340 K to 0.5 K below T_m; within
// 1e-3 of [Quiescent.Rate] from 350 K to 45 K below T_m.
func (q Quiescent) Table() RateTable {
	const step = 0.5
	t := RateTable{low: 340, high: q.Melting - step, per: 1 / step}
	for T := t.low; T <= t.high+step; T += step {
		v := -700.0
		if k := q.Rate(T); k > 0 {
			v = math.Max(v, math.Log(k))
		}
		t.ln = append(t.ln, v)
	}
	return t
}

// Rate returns K [1/s] at T [K], 0 outside the table.
func (t RateTable) Rate(T float64) float64 {
	if !(T >= t.low && T < t.high) {
		return 0
	}
	x := (T - t.low) * t.per
	i := int(x)
	if i+1 >= len(t.ln) {
		return 0
	}
	f := x - float64(i)
	return math.Exp(t.ln[i]*(1-f) + t.ln[i+1]*f)
}
