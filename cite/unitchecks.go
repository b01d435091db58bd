package cite

import (
	"math"

	"costrel/unit"
)

// UnitChecks returns the published checks of the conversion factors in
// package unit. They stand here because cite imports unit.
func UnitChecks() []Check {
	// in returns n units of one symbol in another, both of kind k.
	in := func(k unit.Kind, n float64, from, to string) func() float64 {
		return func() float64 {
			a, okA := unit.Find(k, from)
			b, okB := unit.Find(k, to)
			if !okA || !okB {
				return math.NaN()
			}
			return (n*a.Scale + a.Offset - b.Offset) / b.Scale
		}
	}
	var out []Check
	add := func(id, what, source, in string, ours func() float64, published, allowed float64, mark Mark, note string) {
		out = append(out, Check{
			ID: "unit." + id, Case: what, Source: source, Unit: in, Ours: ours,
			Published: published, Allowed: allowed, Relative: true, Mark: mark, Note: note,
		})
	}
	for _, f := range []struct {
		id, what  string
		kind      unit.Kind
		from, to  string
		published float64
	}{
		{"length.in", "1 inch", unit.Length, "in", "m", 2.54e-2},
		{"length.mil", "1 mil", unit.Length, "mil", "m", 2.54e-5},
		{"volume.floz", "1 US fluid ounce", unit.Volume, "fl oz", "m³", 2.957353e-5},
		{"volume.floz.uk", "1 imperial fluid ounce", unit.Volume, "UK fl oz", "m³", 2.841306e-5},
		{"volume.gal", "1 US gallon", unit.Volume, "US gal", "m³", 3.785412e-3},
		{"mass.lb", "1 pound", unit.Mass, "lb", "kg", 4.535924e-1},
		{"mass.oz", "1 ounce", unit.Mass, "oz", "kg", 2.834952e-2},
		{"force.lbf", "1 pound-force", unit.Force, "lbf", "N", 4.448222},
		{"force.kgf", "1 kilogram-force", unit.Force, "kgf", "N", 9.80665},
		{"torque.inlb", "1 inch-pound of torque", unit.Torque, "in·lb", "N·m", 1.129848e-1},
		{"torque.ftlb", "1 foot-pound of torque", unit.Torque, "ft·lb", "N·m", 1.355818},
		{"pressure.psi", "1 psi", unit.PressureChange, "psi", "Pa", 6.894757e3},
		{"pressure.inHg", "1 inch of mercury, conventional", unit.PressureChange, "inHg", "Pa", 3.386389e3},
		{"pressure.mmHg", "1 millimetre of mercury, conventional", unit.PressureChange, "mmHg", "Pa", 1.333224e2},
		{"pressure.inH2O", "1 inch of water, conventional", unit.PressureChange, "inH2O", "Pa", 2.490889e2},
		{"pressure.atm", "1 standard atmosphere", unit.PressureAbs, "atm", "Pa(a)", 1.01325e5},
		{"energy.btu", "1 British thermal unit, International Table", unit.Energy, "BTU", "J", 1.055056e3},
		{"power.hp", "1 horsepower of 550 ft·lbf/s", unit.Power, "hp", "W", 7.456999e2},
		{"density.lbft3", "1 pound per cubic foot", unit.Density, "lb/ft³", "kg/m³", 1.601846e1},
		{"heat.btulb", "1 BTU per pound", unit.SpecificEnergy, "BTU/lb", "J/kg", 2.326e3},
		{"heat.capacity", "1 BTU per pound and °F", unit.HeatCapacity, "BTU/(lb·°F)", "J/(kg·K)", 4.1868e3},
		{"heat.conductivity", "1 BTU per hour, foot and °F", unit.Conductivity, "BTU/(h·ft·°F)", "W/(m·K)", 1.730735},
		{"heat.transfer", "1 BTU per hour, square foot and °F", unit.HeatTransfer, "BTU/(h·ft²·°F)", "W/(m²·K)", 5.678263},
	} {
		add(f.id, f.what, "NISTSP811", f.to, in(f.kind, 1, f.from, f.to), f.published, 1e-6, Memory, "printed with seven digits")
	}
	add("temperature.F", "185 °F as a temperature", "NISTSP811", "°C", in(unit.TemperaturePoint, 185, "°F", "°C"), 85, 1e-12, Memory, "(°F - 32)/1.8, exact")
	add("temperature.diff", "18 °F as a difference", "NISTSP811", "K", in(unit.TemperatureChange, 18, "°F", "K"), 10, 1e-12, Memory, "no offset")

	add("gas.molar", "molar volume of an ideal gas at 0 °C and 101325 Pa", "CODATA2018", "L/mol",
		func() float64 { return unit.MolarVolumeSTP * 1e3 }, 22.41396954, 1e-9, Memory, "")
	add("co2.mass", "molar mass of CO2", "NISTWebBook", "g/mol",
		func() float64 { return unit.MolarMassCO2 * 1e3 }, 44.0095, 1e-9, Independent, "")
	add("co2.molar", "molar volume of CO2 at 0 °C and 101325 Pa from its second virial coefficient", "Weiss1974", "cm³/mol",
		func() float64 { return unit.MolarVolumeCO2 * 1e6 }, 22263.32, 2e-5, Independent, "p V/(R T) = 1 + B/V with B = -149.64 cm³/mol")
	add("co2.vol", "one volume of CO2", "CommonPractice", "g/L", in(unit.Carbonation, 1, "vol", "g/L"), 1.96, 1e-2, Practice,
		"the trade's 1.96 comes from the ideal gas, 0.86 % low")
	add("gas.scf", "one Nm³ in cubic feet at 60 °F", "CommonPractice", "scf", in(unit.NormalVolume, 1, "Nm³", "scf"), 37.326, 2e-5, Regression,
		"35.3147 ft³ times 519.67/491.67")

	perm := func(n float64, from, to string) func() float64 { return in(unit.Permeability, n, from, to) }
	const bar = "cc·mm/(m²·d·atm)"
	add("permeability.si", "1 "+bar, "CODATA2018", "mol·m/(m²·s·Pa)", perm(1, bar, "mol·m/(m²·s·Pa)"), 5.0963e-18, 1e-5, Regression,
		"1e-9 m³·m over 22.41397 L/mol, 86400 s and 101325 Pa")
	add("permeability.us", "1 cc·mil/(100 in²·d·atm)", "NISTSP811", bar, perm(1, "cc·mil/(100 in²·d·atm)", bar), 0.39370, 1e-5, Regression,
		"0.0254 mm over 0.064516 m²")
	add("permeability.cgs", "1e-13 cm³·cm/(cm²·s·Pa)", "CODATA2018", bar, perm(1e-13, "cc·cm/(cm²·s·Pa)", bar), 87.54, 1e-4, Regression,
		"1e-13 times 10 mm, 1e4 cm², 86400 s and 101325 Pa")
	add("permeability.barrer", "1 Barrer from its definition", "Stern1968", bar, perm(1, "Barrer", bar), 65.664, 1e-5, Independent,
		"1e-10 times 10 mm, 1e4 cm², 86400 s and 76 cmHg")
	add("permeability.barrer.cc", "1 Barrer as often printed", "CommonPractice", bar, perm(1, "Barrer", bar), 65.70, 1e-3, Memory,
		"65.70 carries the rounded 3.348e-16 mol·m/(m²·s·Pa) over; the definition gives 65.664, 0.05 % less")
	add("permeability.barrer.si", "1 Barrer as often printed", "CommonPractice", "mol·m/(m²·s·Pa)", perm(1, "Barrer", "mol·m/(m²·s·Pa)"), 3.348e-16, 1e-3, Memory,
		"the printed figure takes a mole as 22.4 L; the definition gives 3.3464e-16")
	add("permeability.water", "1 g·mil/(100 in²·d·mmHg)", "NISTSP811", "g·mm/(m²·d·kPa)",
		in(unit.VapourPermeability, 1, "g·mil/(100 in²·d·mmHg)", "g·mm/(m²·d·kPa)"), 2.9530, 1e-4, Regression, "0.39370 over 0.1333224 kPa")
	return out
}
