package permeation

import (
	"errors"
	"fmt"
	"math"

	"costrel/num/root"
	"costrel/physics/drink"
	"costrel/unit"
)

// inside is the gas balance of the closed pack at one temperature, water and
// creep given:
//
//	n_i = p_i (m_w s_i + Vg/(R T + B_i P)),  P = sum of p_i + p_w
//	s_CO2 = K phi(P) Poynting(P);  B is 0 for the air gases
//	Vg = V(P) - m/rho - v (n_CO2,liquid - counted)
//
// the equations of drink.Liquid.Equilibrium with a bottle that creeps and
// panels. Where they leave Vg below 0 the liquid fills the bottle ([inside.full]).
type inside struct {
	rt            float64
	pure, vapour  float64 // pressure of water vapour: over water, over the drink [Pa]
	s0, a, virial float64 // s_CO2 = s0 exp(-a P); B
	air           [gases]float64
	water, liquid float64 // [kg]; [m³] without the gas beyond counted
	swell         float64 // v, 0 under an ideal law
	ambient       float64
	base          float64 // bottle at ambient pressure, creep that does not depend on P included [m³]
	slope         float64 // of the bottle with pressure above ambient [m³/Pa]
	panel         []PanelPoint
}

// thermal fills in what depends on temperature alone.
func (e *inside) thermal(m *model, t unit.Temperature) {
	l := &m.pack.Liquid
	e.rt = unit.GasConstant * float64(t)
	e.s0, e.a, e.virial, e.pure, e.swell = l.HenryCO2(t), 0, 0, 0, drink.PartialVolumeCO2
	if !m.ideal {
		e.virial = drink.SecondVirialCO2(t)
		e.a = (drink.PartialVolumeCO2 - e.virial) / e.rt
		e.s0 *= math.Exp(drink.PartialVolumeCO2 * atm / e.rt)
		e.pure = float64(drink.VapourPressure(t))
	}
	e.air[Oxygen], e.air[Nitrogen] = drink.HenryOxygen(t), drink.HenryNitrogen(t)
	e.panel = m.pack.Growth.Panel
}

// fill fills in what depends on the water that is left.
func (e *inside) fill(m *model, t unit.Temperature, water float64) {
	mass := m.solids + water
	w := m.solids / mass
	e.water = water
	e.vapour = drink.WaterActivity(w) * e.pure
	e.liquid = mass/drink.SucroseDensity(t, w) - e.swell*m.pack.Contents.Counted
}

// bottle returns the volume of the bottle and its slope at the pressure.
func (e *inside) bottle(p float64) (v, slope float64) {
	x := p - e.ambient
	if x >= 0 {
		return e.base + e.slope*x, e.slope
	}
	given, slope := give(e.panel, -x)
	return e.base - given, slope
}

// give returns what panels give inward at a vacuum [m³] and its slope.
func give(panel []PanelPoint, vacuum float64) (v, slope float64) {
	if vacuum <= 0 {
		return 0, 0
	}
	last := PanelPoint{}
	for i, q := range panel {
		k := (q.Volume - last.Volume) / (q.Vacuum - last.Vacuum)
		if vacuum <= q.Vacuum || i == len(panel)-1 {
			return last.Volume + k*(vacuum-last.Vacuum), k
		}
		last = q
	}
	return 0, 0
}

// balance is the result of one evaluation at given partial pressures.
type balance struct {
	p         [gases]float64    // as given [Pa]
	total     float64           // P
	n         [gases]float64    // mol, liquid and headspace
	jac       [gases][3]float64 // dn_i/dp_j
	dissolved float64           // CO2 in the liquid [mol]
	fugacity  float64           // of CO2, at the wall [Pa]
	fjac      [3]float64        // its derivatives
	space     float64           // Vg [m³]
	bottle    float64           // [m³]
	density   float64           // of CO2 in a gas at p [mol/m³]
	o2liquid  float64           // dissolved oxygen [mol]
}

func (e *inside) at(p [gases]float64, b *balance) {
	total := p[0] + p[1] + p[2] + e.vapour
	s := e.water * e.s0 * math.Exp(-e.a*total)
	nl := s * p[CO2]
	v, slope := e.bottle(total)
	vg := v - e.liquid - e.swell*nl
	if vg < 0 {
		e.full(p, total, b)
		return
	}
	d := e.rt + e.virial*total
	b.p = p
	b.total, b.dissolved, b.space, b.bottle = total, nl, vg, v
	phi := 1.0
	if e.virial != 0 {
		phi = math.Exp(e.virial * total / e.rt)
	}
	b.fugacity, b.density = phi*p[CO2], p[CO2]/d
	b.n[CO2] = nl + b.density*vg
	for g := Oxygen; g < gases; g++ {
		b.n[g] = p[g] * (e.air[g]*e.water + vg/e.rt)
	}
	b.o2liquid = p[Oxygen] * e.air[Oxygen] * e.water
	for j := range 3 {
		dnl := -e.a * nl
		if j == int(CO2) {
			dnl += s
		}
		dvg := slope - e.swell*dnl
		b.jac[CO2][j] = dnl + p[CO2]*(dvg/d-vg*e.virial/(d*d))
		for g := Oxygen; g < gases; g++ {
			b.jac[g][j] = p[g] * dvg / e.rt
		}
		b.fjac[j] = phi * p[CO2] * e.virial / e.rt
	}
	b.jac[CO2][CO2] += vg / d
	b.jac[Oxygen][Oxygen] += e.air[Oxygen]*e.water + vg/e.rt
	b.jac[Nitrogen][Nitrogen] += e.air[Nitrogen]*e.water + vg/e.rt
	b.fjac[CO2] += phi
}

// solve returns the partial pressures of given amounts: by Newton's iteration
// from p, and where that leads out of what is physical by enclosure.
func (e *inside) solve(n, p [gases]float64, b *balance) ([gases]float64, error) {
	q, err := e.newton(n, p, b)
	if err == nil {
		return q, nil
	}
	if q, err = e.enclose(n, [gases]float64{}); err != nil {
		return p, err
	}
	e.at(q, b)
	if !(b.total < most) {
		return q, errFull
	}
	return q, nil
}

var errBalance = errors.New("the gas balance does not settle")

func (e *inside) newton(n, p [gases]float64, b *balance) ([gases]float64, error) {
	for range 40 {
		e.at(p, b)
		var r [3]float64
		for i := range r {
			r[i] = n[i] - b.n[i]
		}
		dp, ok := solve3(b.jac, r)
		if !ok {
			return p, errBalance
		}
		worst := 0.0
		for i := range p {
			worst = math.Max(worst, math.Abs(dp[i]))
			p[i] += dp[i]
		}
		if math.IsNaN(worst) {
			return p, errBalance
		}
		if worst < 1e-9*(e.ambient+b.total) {
			e.at(p, b)
			if b.total <= 0 || !(b.total < most) {
				return p, errBalance
			}
			return p, nil
		}
	}
	return p, errBalance
}

// partials returns the partial pressures at the total pressure: the gas that
// shares space and liquid at it, and whatever else takes more of it up, by lost
// [mol/Pa]. Where no space is left all gas is dissolved, which keeps the sum
// continuous and falling.
func (e *inside) partials(n, lost [gases]float64, total float64) [gases]float64 {
	v, _ := e.bottle(total)
	space := v - e.liquid
	var p [gases]float64
	if n[CO2] != 0 {
		s := e.water * e.s0 * math.Exp(-e.a*total)
		d := e.rt + e.virial*total
		all := s + lost[CO2]
		h := all + space/d
		disc := h*h - 4*e.swell*s/d*n[CO2]
		if h > 0 && disc > 0 {
			p[CO2] = 2 * n[CO2] / (h + math.Sqrt(disc))
		}
		if p[CO2] == 0 || space-e.swell*s*p[CO2] < 0 {
			p[CO2] = n[CO2] / all
		}
		space -= e.swell * s * p[CO2]
	}
	gas := math.Max(space, 0) / e.rt
	for g := Oxygen; g < gases; g++ {
		p[g] = n[g] / (e.air[g]*e.water + lost[g] + gas)
	}
	return p
}

// enclose solves the balance by Brent's rule in the total pressure; lost as in
// partials.
func (e *inside) enclose(n, lost [gases]float64) ([gases]float64, error) {
	p, err := root.Brent(func(total float64) float64 {
		q := e.partials(n, lost, total)
		return q[0] + q[1] + q[2] + e.vapour - total
	}, 0, most, 1e-6)
	if err != nil {
		return [gases]float64{}, fmt.Errorf("no balance of the gas below ‹50 bar›: %w", err)
	}
	dissolved := func(total float64) (nl, slope float64) {
		s := e.water * e.s0 * math.Exp(-e.a*total)
		nl = n[CO2] * s / (s + lost[CO2])
		return nl, -e.a * nl * lost[CO2] / (s + lost[CO2])
	}
	nl, _ := dissolved(p)
	if v, _ := e.bottle(p); v < e.liquid+e.swell*nl { // full: the wall sets the pressure
		p = e.hydraulic(p, dissolved)
	}
	return e.partials(n, lost, p), nil
}

// fault names where in the life a balance failed.
func fault(t float64, err error) error {
	return fmt.Errorf("permeation: at %.4g d: %w", t/day, err)
}
