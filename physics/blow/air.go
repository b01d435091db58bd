package blow

import (
	"math"
)

// Air: perfect gas with constant heats. Source: CompressibleFlow.
const (
	// AirConstant is the specific gas constant of air [J/(kg K)].
	AirConstant = 287.05

	gamma   = 1.4
	gasCv   = AirConstant / (gamma - 1)
	gasCp   = gamma * gasCv
	critRat = 0.5282817877171742 // (2/(gamma+1))^(gamma/(gamma-1))
)

// Orifice returns the mass flow [kg/s] of air from the absolute pressure p0
// [Pa] at T0 [K] into p [Pa] through the area A [m²] with the discharge
// coefficient cd, and its derivative by p. Choked for p/p0 <= 0.5283:
//
//	flow = cd A p0 sqrt(gamma/(R T0)) (2/(gamma+1))^((gamma+1)/(2(gamma-1)))
//
// else the isentropic nozzle; nothing flows back. Within 0.1 % below p0 the
// root is continued along a line to zero, so that the derivative stays finite.
// Source: CompressibleFlow.
func Orifice(p0, T0, p, A, cd float64) (flow, slope float64) {
	if !(p0 > 0) || !(T0 > 0) || p >= p0 || A <= 0 {
		return 0, 0
	}
	x := p / p0
	if x <= critRat {
		return cd * A * p0 * math.Sqrt(gamma/(AirConstant*T0)) * 0.5787037037037037, 0
	}
	const edge = 0.999
	if x > edge {
		f := psi(edge)
		k := cd * A * p0 * math.Sqrt(2*gamma/((gamma-1)*AirConstant*T0))
		return k * f * (1 - x) / (1 - edge), -k * f / (1 - edge) / p0
	}
	k := cd * A * p0 * math.Sqrt(2*gamma/((gamma-1)*AirConstant*T0))
	f := psi(x)
	g := (2/gamma*math.Pow(x, 2/gamma-1) - (gamma+1)/gamma*math.Pow(x, 1/gamma)) / (2 * f)
	return k * f, k * g / p0
}

func psi(x float64) float64 {
	return math.Sqrt(max(math.Pow(x, 2/gamma)-math.Pow(x, (gamma+1)/gamma), 0))
}

// cavity is the air inside: perfect gas of mass m at temperature T.
type cavity struct {
	mass, T    float64
	dead       float64
	ambient    float64
	supply, T0 float64 // absolute pressure and temperature of the open supply
	area       float64 // C_d A of the open valve; 0: shut
	vent       float64 // C_d A of the exhaust

	guess float64
	flow  float64 // into the cavity at the last answer [kg/s]
}

// pressure returns the absolute pressure after dt at the volume V and its
// derivative by V: p (V + V_d) = (m + flow(p) dt) R T, solved by Newton; the
// left side rises and the right side falls with p, so there is one solution.
func (c *cavity) pressure(V, dt float64) (p, dpdV float64) {
	W := V + c.dead
	RT := AirConstant * c.T
	p = c.guess
	if !(p > 0) {
		p = c.mass * RT / W
	}
	lo, hi := 0.0, math.Inf(1)
	var slope float64
	for range 60 {
		in, di := 0.0, 0.0
		if c.area > 0 {
			in, di = Orifice(c.supply, c.T0, p, c.area, 1)
		}
		if c.vent > 0 {
			out, do0 := ventFlow(p, c.T, c.ambient, c.vent)
			in, di = in-out, di-do0
		}
		c.flow = in
		f := p*W - (c.mass+in*dt)*RT
		slope = W - di*dt*RT
		if f > 0 {
			hi = p
		} else {
			lo = p
		}
		d := f / slope
		next := p - d
		if math.Abs(d) <= 1e-13*p {
			p = next
			break
		}
		if !(next > lo && next < hi) {
			if math.IsInf(hi, 1) {
				next = 2 * p
			} else {
				next = (lo + hi) / 2
			}
		}
		p = next
	}
	c.guess = p
	return p, -p / slope
}

// ventFlow is the flow out of the cavity and its derivative by p.
func ventFlow(p, T, ambient, area float64) (flow, slope float64) {
	if p <= ambient {
		return 0, 0
	}
	f, _ := Orifice(p, T, ambient, area, 1)
	h := 1e-6 * p
	g, _ := Orifice(p+h, T, ambient, area, 1)
	return f, (g - f) / h
}

// advance takes the mass over the step with the flow of the last answer and
// returns what entered.
func (c *cavity) advance(dt float64) float64 {
	c.mass += c.flow * dt
	return c.flow * dt
}

// warm takes the temperature of the air over the step after the mass has
// moved: d(m u) = h dm - p dV - h_i A (T - T_w) dt. wall is h_i A dt [J/K].
func (c *cavity) warm(mOld, entered, p, dV, wall, Twall float64) {
	h := gasCp * c.T0
	if entered < 0 {
		h = gasCp * c.T
	}
	// implicit in the wall term
	c.T = (mOld*gasCv*c.T + h*entered - p*dV + wall*Twall) / (c.mass*gasCv + wall)
}
