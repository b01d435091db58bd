package unit

// Building blocks of the units of permeation, SI.
const (
	atm    = float64(Atm)
	hunIn2 = 100 * inch * inch
)

// barrier holds the kinds of drinks, gases in solution and permeation.
//
// cc is a cm³ of ideal gas at 0 °C and 101325 Pa. The Barrer follows from its
// definition, 1e-10 cm³(STP)·cm/(cm²·s·cmHg) = 3.3464e-16 mol·m/(m²·s·Pa);
// the 3.348e-16 often printed comes from a molar volume rounded to 22.4 L.
var barrier = []entry{
	{Carbonation, "kg/m³", "g/L", "vol", []Unit{
		in("g/L", 1), in("vol", VolumeCO2, "vol.", "vols", "volume", "volumes", "v/v"), in("kg/m³", 1), in("mg/L", 1e-3),
	}},
	{Concentration, "kg/m³", "g/L", "g/L", []Unit{
		in("g/L", 1, "mg/mL", "g/dm³"), in("mg/L", 1e-3), in("µg/L", 1e-6), in("kg/m³", 1), in("g/100 mL", 10), in("lb/gal", pound/usGallon),
	}},
	{SolubilitySugar, "m³/kg", "%/(g/L)", "%/(g/L)", []Unit{in("%/(g/L)", 1e-2), in("1/(g/L)", 1, "L/g"), in("m³/kg", 1)}},
	{IntrinsicViscosity, "m³/kg", "dL/g", "dL/g", []Unit{in("dL/g", 0.1), in("mL/g", 1e-3, "cm³/g"), in("L/g", 1), in("m³/kg", 1)}},
	{Diffusivity, "m²/s", "cm²/s", "cm²/s", []Unit{in("cm²/s", 1e-4), in("m²/s", 1), in("mm²/s", 1e-6)}},
	{GasSolubility, "mol/(m³·Pa)", "cc/(cm³·atm)", "cc/(cm³·atm)", []Unit{
		in("cc/(cm³·atm)", cc/(1e-6*atm)), in("cc/(cm³·bar)", cc/(1e-6*barPa)), in("mol/(m³·Pa)", 1),
	}},
	{DrinkSolubility, "mol/(m³·Pa)", "mol/(L·bar)", "mol/(L·bar)", []Unit{
		in("mol/(L·bar)", 1e3/barPa), in("mol/(L·atm)", 1e3/atm), in("mol/(m³·Pa)", 1),
	}},
	{Permeability, "mol·m/(m²·s·Pa)", "cc·mm/(m²·d·atm)", "cc·mil/(100 in²·d·atm)", []Unit{
		in("cc·mm/(m²·d·atm)", cc*1e-3/(day*atm), "mL·mm/(m²·d·atm)"),
		in("cc·mm/(m²·d·bar)", cc*1e-3/(day*barPa), "mL·mm/(m²·d·bar)"),
		in("cc·mil/(100 in²·d·atm)", cc*mil/(hunIn2*day*atm), "mL·mil/(100 in²·d·atm)"),
		in("cc·mil/(100 in²·d·bar)", cc*mil/(hunIn2*day*barPa), "mL·mil/(100 in²·d·bar)"),
		in("Barrer", 1e-10*cc*1e-2/(1e-4*10*mmHg), "barrers"),
		in("cc·cm/(cm²·s·Pa)", cc*1e-2/1e-4),
		in("cc·cm/(cm²·s·cmHg)", cc*1e-2/(1e-4*10*mmHg)),
		in("mol·m/(m²·s·Pa)", 1, "mol/(m·s·Pa)"),
	}},
	{GasPermeance, "mol/(m²·s·Pa)", "cc/(m²·d·atm)", "cc/(100 in²·d·atm)", []Unit{
		in("cc/(m²·d·atm)", cc/(day*atm), "mL/(m²·d·atm)"), in("cc/(m²·d·bar)", cc/(day*barPa), "mL/(m²·d·bar)"),
		in("cc/(100 in²·d·atm)", cc/(hunIn2*day*atm), "mL/(100 in²·d·atm)"), in("mol/(m²·s·Pa)", 1),
	}},
	{GasConductance, "mol/(s·Pa)", "cm³/(d·atm)", "cm³/(d·atm)", []Unit{
		in("cm³/(d·atm)", cc/(day*atm), "mL/(d·atm)", "cm³/(pack·d·atm)", "mL/(pack·d·atm)"),
		in("cm³/(d·bar)", cc/(day*barPa), "mL/(d·bar)", "cm³/(pack·d·bar)", "mL/(pack·d·bar)"),
		in("mol/(s·Pa)", 1, "mol/(pack·s·Pa)"),
	}},
	{GasLeak, "mol/(s·Pa²)", "cm³/(d·bar²)", "cm³/(d·bar²)", []Unit{
		in("cm³/(d·bar²)", cc/(day*barPa*barPa), "mL/(d·bar²)"), in("cm³/(d·atm²)", cc/(day*atm*atm), "mL/(d·atm²)"), in("mol/(s·Pa²)", 1),
	}},
	{PackGasRate, "mol/s", "cm³/(pack·d)", "cm³/(pack·d)", []Unit{
		in("cm³/(pack·d)", cc/day, "mL/(pack·d)"), in("cm³/d", cc/day, "mL/d"), in("mol/s", 1), in("µmol/d", 1e-6/day, "µmol/(pack·d)"),
	}},
	{VapourPermeability, "kg·m/(m²·s·Pa)", "g·mm/(m²·d·kPa)", "g·mil/(100 in²·d·mmHg)", []Unit{
		in("g·mm/(m²·d·kPa)", 1e-9/day), in("g·mm/(m²·d·bar)", 1e-11/day), in("g·mm/(m²·d·Pa)", 1e-6/day), in("g·mm/(m²·d·mmHg)", 1e-6/(day*mmHg)),
		in("g·mil/(100 in²·d·mmHg)", 1e-3*mil/(hunIn2*day*mmHg)), in("g·mil/(100 in²·d·kPa)", 1e-6*mil/(hunIn2*day)), in("g·mil/(100 in²·d·atm)", 1e-3*mil/(hunIn2*day*atm)),
		in("kg·m/(m²·s·Pa)", 1, "kg/(m·s·Pa)"),
	}},
	{VapourPermeance, "kg/(m²·s·Pa)", "g/(m²·d·kPa)", "g/(100 in²·d·mmHg)", []Unit{
		in("g/(m²·d·kPa)", 1e-6/day), in("g/(100 in²·d·mmHg)", 1e-3/(hunIn2*day*mmHg)), in("kg/(m²·s·Pa)", 1),
	}},
	{VapourConductance, "kg/(s·Pa)", "g/(d·kPa)", "g/(d·kPa)", []Unit{
		in("g/(d·kPa)", 1e-6/day, "g/(pack·d·kPa)"), in("mg/(d·kPa)", 1e-9/day, "mg/(pack·d·kPa)"), in("g/(d·bar)", 1e-8/day, "g/(pack·d·bar)"), in("kg/(s·Pa)", 1, "kg/(pack·s·Pa)"),
	}},
	{PackMassRate, "kg/s", "g/(pack·d)", "g/(pack·d)", []Unit{
		in("g/(pack·d)", 1e-3/day), in("g/d", 1e-3/day), in("mg/(pack·d)", 1e-6/day), in("mg/d", 1e-6/day), in("kg/s", 1, "kg/(pack·s)"),
	}},
}
