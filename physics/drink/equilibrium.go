package drink

import (
	"fmt"
	"math"

	"costrel/num/root"
	"costrel/unit"
)

// Contents is what a closed bottle holds: the liquid without its gas [kg] and
// the gases, dissolved and in the headspace together [mol].
type Contents struct {
	Liquid                float64
	CO2, Oxygen, Nitrogen float64
	// Counted is the dissolved carbon dioxide [mol] that was already in the
	// liquid when its volume was measured: Liquid is that volume times the
	// density without gas, so only what is dissolved beyond Counted swells it.
	Counted float64
}

// Vessel is the volume of a bottle, linear in the gauge pressure:
//
//	V = Volume (1 + Growth (P - Ambient))
type Vessel struct {
	Volume  float64          // m³ at ambient pressure, to the brim
	Growth  float64          // 1/Pa, 0 is rigid; 0..1e-6
	Ambient unit.AbsPressure // Pa
}

// State is a closed bottle in equilibrium.
type State struct {
	Pressure
	Bottle, Volume, Headspace float64 // m³: bottle, liquid, gas space
	Dissolved                 float64 // mol CO2 in the liquid
	Carbonation               float64 // kg/m³ on the drink's basis
}

// Equilibrium returns the state of given contents in a given vessel at T.
//
// Each gas is shared between liquid and headspace, the sum of the partial
// pressures is the pressure that stretches the bottle, and the liquid expands
// with temperature and with the gas it takes up:
//
//	n_i = p_i (m_w s_i + V_g/(R T + B_i P)),  P = Σ p_i + a_w p_w
//	V_g = V(P) - m/rho(T) - v (n_CO2,liquid - Counted)
//
// s_CO2 = K phi(P) Poynting(P); s_O2, s_N2 by Henry; B is 0 for air gases and
// under an ideal law. One scalar equation in P, solved by Brent's rule to
// 1 mPa; nothing is allocated unless there is a warning.
//
// Warnings: law out of range; pressure above WarnPressure; headspace below 1 %
// of the bottle; vacuum, where a wall panels instead of shrinking linearly.
// Errors: inputs out of range; no gas space left (the liquid fills the bottle,
// its pressure is then set by the wall and not by this equation); no
// equilibrium below MaxPressure.
func (l Liquid) Equilibrium(c Contents, v Vessel, t unit.Temperature) (State, error) {
	if err := l.check(t, v.Ambient); err != nil {
		return State{}, err
	}
	if err := checkVessel(c, v); err != nil {
		return State{}, err
	}
	e := l.balanceOf(c, v, t)
	total, err := e.solve()
	if err != nil {
		return State{}, err
	}
	s := State{Pressure: Pressure{Water: e.vapour}}
	s.CO2, s.Oxygen, s.Nitrogen = e.partials(total)
	s.Dissolved = e.water * e.g.solubility(total) * s.CO2
	s.Bottle = e.bottle(total)
	s.Volume = e.liquid + PartialVolumeCO2*(s.Dissolved-c.Counted)
	s.Headspace = s.Bottle - s.Volume
	s.Carbonation = l.Carbonation(s.Dissolved / e.water)
	l.finish(&s.Pressure, t, total, v.Ambient)
	if s.Headspace < 0.01*s.Bottle {
		s.Warnings = append(s.Warnings, fmt.Sprintf(
			"drink: closed: headspace ‹%.2f mL› is %.2f %% of the bottle at ‹%.1f °C›, below 1 %%: the liquid may come to fill it",
			s.Headspace*1e6, 100*s.Headspace/s.Bottle, t.Celsius()))
	}
	if s.Gauge < 0 && v.Growth > 0 {
		s.Warnings = append(s.Warnings, fmt.Sprintf(
			"drink: closed: gauge pressure %.1f mbar below 0: a wall under vacuum panels, the linear growth does not hold", float64(s.Gauge)/100))
	}
	return s, nil
}

func checkVessel(c Contents, v Vessel) error {
	for _, r := range [...]struct {
		item         string
		x, low, high float64
		symbol       string
	}{
		{"closed: liquid", c.Liquid, 1e-6, 1e5, "kg"},
		{"closed: carbon dioxide", c.CO2, 0, 1e4, "mol"},
		{"closed: oxygen", c.Oxygen, 0, 1e4, "mol"},
		{"closed: nitrogen", c.Nitrogen, 0, 1e4, "mol"},
		{"closed: dissolved carbon dioxide counted in the volume", c.Counted, 0, 1e4, "mol"},
		{"closed: bottle volume", v.Volume, 1e-9, 100, "m³"},
		{"closed: growth", v.Growth, 0, 1e-6, "1/Pa"},
	} {
		if err := within(r.item, r.x, r.low, r.high, r.symbol); err != nil {
			return err
		}
	}
	return nil
}

// balance is the closed bottle at one temperature, everything that does not
// depend on the pressure worked out.
type balance struct {
	Contents
	Vessel
	g                    gas
	t                    unit.Temperature
	water, liquid        float64 // kg of water; m³ of liquid with Counted in it
	vapour               float64 // Pa
	oxygenIn, nitrogenIn float64 // mol/Pa that the liquid holds of the air gases
}

func (l Liquid) balanceOf(c Contents, v Vessel, t unit.Temperature) balance {
	e := balance{Contents: c, Vessel: v, g: l.gasAt(t), t: t}
	e.water = c.Liquid * (1 - l.w)
	e.liquid = c.Liquid / l.Density(t)
	e.vapour = l.VapourPressure(t)
	if c.Oxygen > 0 {
		e.oxygenIn = e.water * HenryOxygen(t)
	}
	if c.Nitrogen > 0 {
		e.nitrogenIn = e.water * HenryNitrogen(t)
	}
	return e
}

func (e *balance) bottle(p float64) float64 {
	return e.Volume * (1 + e.Growth*(p-float64(e.Ambient)))
}

// partials returns the partial pressures at the total pressure p. With the
// swelling of the liquid, that of carbon dioxide x obeys a quadratic:
//
//	n = x s + x (V - v s x)/d,  s = dissolved per pascal, d = R T + B P,
//	V = gas space were no carbon dioxide dissolved
//
// whose smaller root is the one with a gas space. Where no gas space is left
// the gases count as wholly dissolved, which keeps the equation continuous.
func (e *balance) partials(p float64) (co2, oxygen, nitrogen float64) {
	space := e.bottle(p) - e.liquid + PartialVolumeCO2*e.Counted
	if e.CO2 > 0 {
		s := e.water * e.g.solubility(p)
		d := e.g.rt + e.g.b*p
		b := s + space/d
		disc := b*b - 4*PartialVolumeCO2*s/d*e.CO2
		if b > 0 && disc > 0 {
			co2 = 2 * e.CO2 / (b + math.Sqrt(disc))
		}
		if co2 == 0 || space-PartialVolumeCO2*s*co2 < 0 {
			co2 = e.CO2 / s
		}
		space -= PartialVolumeCO2 * s * co2
	}
	gas := math.Max(0, space) / e.g.rt
	if e.Oxygen > 0 {
		oxygen = e.Oxygen / (e.oxygenIn + gas)
	}
	if e.Nitrogen > 0 {
		nitrogen = e.Nitrogen / (e.nitrogenIn + gas)
	}
	return co2, oxygen, nitrogen
}

func (e *balance) residual(p float64) float64 {
	co2, o2, n2 := e.partials(p)
	return co2 + o2 + n2 + e.vapour - p
}

// solve returns the total pressure [Pa].
func (e *balance) solve() (float64, error) {
	low := e.vapour // the gases can only add to it
	// Doubling keeps the bracket near the answer, where Brent's rule is quick.
	high := math.Max(2*low, 1e6)
	for e.residual(high) > 0 {
		if high >= float64(MaxPressure) {
			if e.space(high) <= 0 {
				return 0, e.full()
			}
			return 0, overPressure("closed", e.t)
		}
		low, high = high, math.Min(2*high, float64(MaxPressure))
	}
	p, err := root.Brent(e.residual, low, high, 1e-3)
	if err != nil {
		return 0, fmt.Errorf("drink: closed: %w", err)
	}
	if e.space(p) <= 0 {
		return 0, e.full()
	}
	return p, nil
}

// space returns the gas space at p, with the dissolved gas in the liquid.
func (e *balance) space(p float64) float64 {
	co2, _, _ := e.partials(p)
	return e.bottle(p) - e.liquid - PartialVolumeCO2*(e.water*e.g.solubility(p)*co2-e.Counted)
}

func (e *balance) full() error {
	return fmt.Errorf("drink: closed: no gas space at %s: ‹%.2f mL› of liquid in a bottle of ‹%.2f mL›: make the bottle larger, fill less or keep it cooler",
		unit.Quote(unit.TemperaturePoint, float64(e.t), 4), e.liquid*1e6, e.Volume*1e6)
}
