package hotfill

import (
	"fmt"

	"costrel/unit"
)

// Refusal is a pack the package does not answer for. It says where, which
// value met which limit, and what to do.
type Refusal struct {
	Place  string // "fill", "headspace", "panel: point 2" ...
	Item   string
	Value  float64 // in Symbol
	Symbol string
	Limit  string
	Remedy string
}

// Error returns the refusal as one line.
func (r *Refusal) Error() string {
	return fmt.Sprintf("hotfill: %s: %s ‹%.6g %s› against %s: %s", r.Place, r.Item, r.Value, r.Symbol, r.Limit, r.Remedy)
}

func refuse(place, item string, value float64, symbol, limit, remedy string) error {
	return &Refusal{Place: place, Item: item, Value: value, Symbol: symbol, Limit: limit, Remedy: remedy}
}

// The temperatures between which the package answers [K].
const (
	LowT  unit.Temperature = 273.15
	HighT unit.Temperature = 373.15
)

// The trade's window of filling temperatures [K]; outside it is a warning.
// From trade articles: 82 to 96 °C.
const (
	LowFill  unit.Temperature = 355.15
	HighFill unit.Temperature = 369.15
)

// boil is the least dry pressure at closing: liquid near its boiling point
// leaves no air [Pa].
const boil = 100

func temperature(place string, t unit.Temperature) error {
	if !(t >= LowT && t <= HighT) {
		return refuse(place, "temperature", t.Celsius(), "°C", "‹0..100 °C›", "the densities and vapour pressures hold for liquid water only")
	}
	return nil
}

func ambient(place string, p unit.AbsPressure) error {
	if !(p >= 50e3 && p <= 110e3) {
		return refuse(place, "ambient pressure", float64(p)/1e3, "kPa(a)", "‹50..110 kPa(a)›", "give an absolute pressure")
	}
	return nil
}

// close checks a pack and its store and works out all but the pressure.
func (p Pack) close(st Store) (*closed, error) {
	if p.Liquid == nil {
		return nil, refuse("fill", "liquids", 0, "", "1", "give the drink")
	}
	if d, ok := p.Liquid.(carbonated); ok && d.Content() > 0 {
		return nil, refuse("fill", "carbon dioxide", d.Content(), "g/L", "0 g/L",
			"a carbonated drink boils its gas off and bursts the pack when filled hot: fill it cold, or pasteurise the closed pack")
	}
	if p.Gas == 0 {
		p.Gas = p.Temperature
	}
	if p.Ambient == 0 {
		p.Ambient = unit.Atm
	}
	if st.Ambient == 0 {
		st.Ambient = unit.Atm
	}
	for _, t := range [...]struct {
		place string
		t     unit.Temperature
	}{{"fill", p.Temperature}, {"fill: stated at", p.FillAt}, {"headspace", p.Gas}, {"store", st.Temperature}} {
		if err := temperature(t.place, t.t); err != nil {
			return nil, err
		}
	}
	if err := ambient("fill", p.Ambient); err != nil {
		return nil, err
	}
	if err := ambient("store", st.Ambient); err != nil {
		return nil, err
	}
	if !(p.Overflow > 1e-6) || p.Overflow > 0.1 {
		return nil, refuse("bottle", "brimful volume", p.Overflow*1e6, "mL", "‹1..100000 mL›", "give the brimful volume of the bottle")
	}
	if !(p.Fill > 0) || p.Fill > p.Overflow {
		return nil, refuse("fill", "volume", p.Fill*1e6, "mL", fmt.Sprintf("‹0..%.6g mL›, brimful", p.Overflow*1e6), "fill less or take a larger bottle")
	}
	if !(p.Steam >= 0) || p.Steam > 1 {
		return nil, refuse("headspace", "share of steam", p.Steam, "", "0..1", "0 is air saturated with steam, 1 steam alone")
	}
	if !(p.Nitrogen >= 0) || p.Nitrogen > 1e-2 {
		return nil, refuse("headspace", "nitrogen", p.Nitrogen*1e6, "mg", "0..10000 mg", "give the nitrogen that the closure captures")
	}
	if !(p.Shrinkage >= 0) || p.Shrinkage > 0.2 {
		return nil, refuse("bottle", "shrinkage", 100*p.Shrinkage, "%", "0..20 %", "give the loss of brimful volume by hot filling")
	}
	if err := p.Panel.check(); err != nil {
		return nil, err
	}
	mass := p.Fill * p.Liquid.Density(p.FillAt)
	c := &closed{Pack: p, store: st}
	c.hot = mass / p.Liquid.Density(p.Temperature)
	c.cold = mass / p.Liquid.Density(st.Temperature)
	c.hotGas = p.Overflow - c.hot
	c.shrunk = p.Overflow * (1 - p.Shrinkage)
	c.vapour = p.Liquid.VapourPressure(st.Temperature)
	if c.hotGas < 0 {
		return nil, refuse("headspace", "volume at closing", c.hotGas*1e6, "mL", "‹0 mL›",
			fmt.Sprintf("‹%.6g mL› at ‹%.4g °C› are ‹%.6g mL› at ‹%.4g °C›: fill less or take a larger bottle", p.Fill*1e6, p.FillAt.Celsius(), c.hot*1e6, p.Temperature.Celsius()))
	}
	if boils := p.Liquid.VapourPressure(p.Temperature); float64(p.Ambient)-boils < boil {
		return nil, refuse("fill", "vapour pressure of the drink", boils/1e3, "kPa(a)", fmt.Sprintf("‹%.6g kPa(a)›, ambient", float64(p.Ambient)/1e3),
			fmt.Sprintf("at ‹%.4g °C› it boils at this altitude: fill cooler", p.Temperature.Celsius()))
	}
	steam := p.Liquid.VapourPressure(p.Gas)
	dry := float64(p.Ambient) - steam
	if dry < boil {
		return nil, refuse("headspace", "steam pressure at closing", steam/1e3, "kPa(a)", fmt.Sprintf("‹%.6g kPa(a)›, ambient", float64(p.Ambient)/1e3),
			"the liquid boils at this altitude: fill cooler")
	}
	if float64(st.Ambient)-c.vapour < boil {
		return nil, refuse("store", "vapour pressure", c.vapour/1e3, "kPa(a)", fmt.Sprintf("‹%.6g kPa(a)›, ambient", float64(st.Ambient)/1e3), "the liquid would boil in an open pack: store cooler")
	}
	c.air = (1 - p.Steam) * dry * c.hotGas / (unit.GasConstant * float64(p.Gas))
	c.nitrogen = p.Nitrogen / nitrogenMass
	if c.shrunk-c.cold <= 0 && c.Panel.Outward == 0 {
		return nil, refuse("bottle", "shrinkage", 100*p.Shrinkage, "%", fmt.Sprintf("%.4g %%, where the liquid at ‹%.4g °C› fills the bottle", 100*(1-c.cold/p.Overflow), st.Temperature.Celsius()),
			"a wall that gives nothing outward cannot shrink below its liquid: check the shrinkage or give the outward compliance")
	}
	if !finite(c.hot, c.cold, c.air, c.vapour) {
		return nil, refuse("fill", "density", p.Liquid.Density(p.Temperature), "kg/m³", "a finite number", "check the drink")
	}
	c.warn()
	return c, nil
}

// degrees writes a temperature into a sentence, in the unit of its reader.
func degrees(t unit.Temperature) string { return unit.Quote(unit.TemperaturePoint, float64(t), 4) }

// drop writes a difference of pressure into a sentence, as that of a vacuum.
func drop(p float64) string { return unit.Quote(unit.PressureChange, p, 4, "kPa", "inHg") }

func (c *closed) warn() {
	add := func(format string, args ...any) {
		c.warnings = append(c.warnings, "hotfill: "+fmt.Sprintf(format, args...))
	}
	if c.Temperature < LowFill || c.Temperature > HighFill {
		add("fill temperature %s outside the usual %s to %s", degrees(c.Temperature), degrees(LowFill), degrees(HighFill))
	}
	if c.Gas > c.Temperature {
		add("headspace gas at %s is above the liquid at %s", degrees(c.Gas), degrees(c.Temperature))
	}
	if c.store.Temperature > c.Temperature {
		add("store at %s is above the fill at %s: pressure, not vacuum", degrees(c.store.Temperature), degrees(c.Temperature))
	}
	if c.hotGas < 0.005*c.Overflow {
		add("headspace at closing %s is below 0.5 %% of the bottle: a small error of the fill moves the result much", unit.Quote(unit.Volume, c.hotGas, 3))
	}
}
