package unit

// mechanics holds the kinds of geometry, force and pressure.
var mechanics = []entry{
	{Length, "m", "mm", "in", []Unit{
		in("mm", 1e-3, "millimetre", "millimetres", "millimeter", "millimeters", "MM"),
		in("µm", 1e-6, "micron", "microns", "micrometre", "micrometer"),
		in("cm", 1e-2),
		in("m", 1, "metre", "meter", "metres", "meters"),
		in("in", inch, "inch", "inches", `"`),
		in("mil", mil, "mils", "thou", "MIL", "MILS"),
		in("ft", foot, "foot", "feet"),
		in("nm", 1e-9),
	}},
	{Area, "m²", "cm²", "in²", []Unit{
		in("mm²", 1e-6), in("cm²", 1e-4), in("m²", 1), in("in²", inch*inch, "sq in"), in("ft²", foot*foot, "sq ft"),
	}},
	{Volume, "m³", "mL", "fl oz", []Unit{
		in("mL", 1e-6, "millilitre", "millilitres", "milliliter", "milliliters"),
		in("cL", 1e-5),
		in("dL", 1e-4),
		in("L", 1e-3, "litre", "litres", "liter", "liters"),
		in("hL", 0.1),
		in("cm³", 1e-6, "cc", "ccm"),
		in("m³", 1),
		in("fl oz", usFluidOz, "fl. oz.", "floz", "US fl oz", "fl oz (US)", "US fl. oz.", "fluid ounce", "fluid ounces"),
		in("UK fl oz", ukFluidOz, "UK fl. oz.", "fl oz (UK)", "imp fl oz", "imp. fl. oz.", "imperial fl oz"),
		in("US gal", usGallon, "gal", "gallon", "gallons"),
		in("in³", inch*inch*inch, "cu in"),
		in("ft³", foot*foot*foot, "cu ft"),
		in("mm³", 1e-9, "µL"),
	}},
	{Mass, "kg", "g", "g", []Unit{
		in("g", 1e-3, "gram", "grams", "gramme", "grammes", "gm"),
		in("kg", 1, "kgs", "kilogram", "kilograms"),
		in("mg", 1e-6),
		in("µg", 1e-9, "mcg"),
		in("t", 1e3, "tonne", "tonnes", "metric ton"),
		in("oz", ounce, "ounce", "ounces"),
		in("lb", pound, "pound", "pounds"),
	}},
	{Time, "s", "s", "s", []Unit{
		in("s", 1), in("ms", 1e-3), in("min", minute, "MIN"), in("h", hour), in("d", day),
		in("weeks", week, "week", "wk", "wks"), in("months", month, "month", "mo"), in("years", year, "year", "y", "yr", "yrs", "a"),
	}},
	{PressureGauge, "Pa(g)", "bar(g)", "psi(g)", []Unit{
		in("bar(g)", barPa), in("mbar(g)", 100, "hPa(g)"), in("Pa(g)", 1), in("kPa(g)", 1e3), in("MPa(g)", 1e6), in("psi(g)", psi), in("inHg(g)", inHg), in("mmHg(g)", mmHg), in("inH2O(g)", inH2O), in("atm(g)", float64(Atm)),
	}},
	{PressureAbs, "Pa(a)", "bar(a)", "psi(a)", []Unit{
		in("bar(a)", barPa), in("mbar(a)", 100, "hPa(a)"), in("Pa(a)", 1), in("kPa(a)", 1e3), in("MPa(a)", 1e6), in("psi(a)", psi),
		in("atm", float64(Atm), "atm(a)"), in("inHg(a)", inHg, `"Hg(a)`), in("mmHg(a)", mmHg, "torr"),
	}},
	{PressureChange, "Pa", "bar", "psi", []Unit{
		in("bar", barPa), in("mbar", 100, "hPa", "MBAR"), in("Pa", 1), in("kPa", 1e3), in("MPa", 1e6, "MPA"), in("GPa", 1e9), in("psi", psi, "psid"),
		in("atm", float64(Atm)), in("inHg", inHg, "in Hg", `"Hg`), in("mmHg", mmHg, "mm Hg", "torr"), in("inH2O", inH2O, "in H2O", `"H2O`), in("mmH2O", mmH2O, "mm H2O"),
	}},
	{Stress, "Pa", "MPa", "psi", []Unit{
		in("MPa", 1e6, "MPA"), in("GPa", 1e9), in("kPa", 1e3), in("Pa", 1), in("bar", barPa), in("mbar", 100), in("N/mm²", 1e6), in("psi", psi), in("ksi", 1e3*psi),
		in("inHg", inHg, "in Hg", `"Hg`),
	}},
	{Force, "N", "N", "lbf", []Unit{
		in("N", 1, "newton", "newtons"), in("kN", 1e3), in("daN", 10), in("kgf", Gravity, "kp"), in("lbf", pounds, "pound-force"), in("mN", 1e-3), in("tonf(US)", 2000*pounds, "US tonf", "US ton-force"),
	}},
	{Torque, "N·m", "N·m", "in·lb", []Unit{
		in("N·m", 1, "Nm"), in("N·cm", 1e-2, "Ncm"), in("kgf·cm", Gravity/100, "kgfcm"),
		in("in·lb", torqIn, "lb·in", "in·lbf", "lbf·in", "inlb", "inlbf", "lbfin", "lbin"),
		in("ft·lb", foot*pounds, "lb·ft", "ft·lbf", "lbf·ft", "ftlb", "ftlbf"),
	}},
	{Speed, "m/s", "mm/s", "in/s", []Unit{
		in("mm/s", 1e-3), in("m/s", 1), in("mm/min", 1e-3/minute), in("m/min", 1/minute), in("in/s", inch, "ips"), in("in/min", inch/minute), in("ft/s", foot),
	}},
	{Density, "kg/m³", "g/cm³", "g/cm³", []Unit{
		in("g/cm³", 1e3, "g/mL", "kg/L", "kg/dm³"), in("kg/m³", 1, "g/L"), in("lb/ft³", pound/(foot*foot*foot)), in("lb/gal", pound/usGallon), in("lb/in³", pound/(inch*inch*inch)),
	}},
	{Angle, "rad", "°", "°", []Unit{
		in("°", degree, "deg", "degree", "degrees"), in("rad", 1, "radian", "radians"), in("mrad", 1e-3),
	}},
	{Compliance, "m³/Pa", "mL/kPa", "fl oz/psi", []Unit{
		in("mL/bar", 1e-11, "cm³/bar"), in("mL/kPa", 1e-9, "cm³/kPa"), in("mL/mbar", 1e-8, "cm³/mbar"), in("m³/Pa", 1), in("mL/psi", 1e-6/psi, "cm³/psi"), in("fl oz/psi", usFluidOz/psi),
	}},
	{Stiffness, "N/m", "N/mm", "lbf/in", []Unit{
		in("N/mm", 1e3, "kN/m"), in("N/m", 1), in("lbf/in", pounds/inch, "lb/in"),
	}},
	{Viscosity, "Pa·s", "Pa·s", "Pa·s", []Unit{
		in("Pa·s", 1, "Pas"), in("mPa·s", 1e-3, "mPas", "cP"), in("kPa·s", 1e3), in("poise", 0.1),
	}},
	{StrainRate, "1/s", "1/s", "1/s", []Unit{in("1/s", 1, "s⁻¹"), in("1/min", 1/minute, "min⁻¹"), in("%/s", 1e-2), in("%/min", 1e-2/minute)}},
	{Compressibility, "1/Pa", "1/GPa", "1/GPa", []Unit{in("1/GPa", 1e-9), in("1/MPa", 1e-6), in("1/bar", 1e-5), in("1/Pa", 1), in("1/psi", 1/psi)}},
}
