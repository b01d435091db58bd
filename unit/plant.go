package unit

// kWh is one kilowatt-hour [J].
const kWh = 1e3 * hour

// plant holds the kinds of air, output, money and emission.
var plant = []entry{
	{NormalVolume, "Nm³", "Nm³", "scf", []Unit{in("Nm³", 1), in("NL", 1e-3), in("scf", standardFoot, "scf (60 °F)", "SCF"), in("scf (68 °F)", warmFoot)}},
	{NormalFlow, "Nm³/s", "Nm³/h", "scfm", []Unit{
		in("Nm³/h", 1/hour), in("Nm³/min", 1/minute), in("Nm³/s", 1), in("NL/min", 1e-3/minute), in("NL/s", 1e-3), in("scfm", standardFoot/minute, "scf/min"),
	}},
	{NormalVolumePerThousand, "Nm³/1000", "Nm³/1000", "scf/1000", []Unit{
		in("Nm³/1000", 1, "Nm³/1000 pcs", "Nm³/1000 bottles"), in("scf/1000", standardFoot, "scf/1000 pcs", "scf/1000 bottles"), in("NL/bottle", 1),
	}},
	{NormalEnergy, "J/Nm³", "kWh/Nm³", "kWh/1000 scf", []Unit{
		in("kWh/Nm³", kWh), in("kJ/Nm³", 1e3), in("J/Nm³", 1), in("kWh/1000 scf", kWh/(1e3*standardFoot)),
	}},
	{Rate, "1/s", "1/s", "1/s", []Unit{
		in("1/s", 1, "s⁻¹"), in("1/min", 1/minute, "min⁻¹"), in("1/h", 1/hour, "h⁻¹"), in("1/d", 1/day, "d⁻¹"), in("1/year", 1/year),
		in("bottles/h", 1/hour, "b/h", "bph"), in("bottles/min", 1/minute, "b/min", "bpm"),
	}},
	{Output, "bottles/s", "bottles/h", "bottles/h", []Unit{
		in("bottles/h", 1/hour, "b/h", "bph", "1/h"), in("bottles/min", 1/minute, "b/min", "bpm", "1/min"), in("bottles/s", 1, "1/s"),
	}},
	{MassPerVolumeRate, "kg/s", "g/s", "g/s", []Unit{
		in("g/s", 1e-3), in("kg/s", 1), in("kg/h", 1/hour), in("t/h", 1e3/hour), in("lb/h", pound/hour),
	}},
	{PricePerMass, "EUR/kg", "EUR/kg", "EUR/kg", []Unit{in("EUR/kg", 1), in("EUR/t", 1e-3), in("EUR/lb", 1/pound)}},
	{PricePerEnergy, "EUR/J", "EUR/kWh", "EUR/kWh", []Unit{in("EUR/kWh", 1/kWh), in("EUR/MWh", 1e-3/kWh), in("EUR/MJ", 1e-6), in("EUR/J", 1)}},
	{PricePerThousand, "EUR/1000", "EUR/1000", "EUR/1000", []Unit{
		in("EUR/1000", 1, "EUR/1000 pcs", "EUR/1000 bottles", "EUR/thousand"), in("EUR/bottle", 1e3, "EUR/piece"),
	}},
	{Money, "EUR", "EUR", "EUR", []Unit{in("EUR", 1)}},
	{EnergyPerThousand, "J/1000", "kWh/1000", "kWh/1000", []Unit{
		in("kWh/1000", kWh, "kWh/1000 pcs", "kWh/1000 bottles"), in("MJ/1000", 1e6, "MJ/1000 bottles", "kJ/bottle"), in("J/1000", 1), in("BTU/1000", btu, "BTU/1000 bottles"),
	}},
	{Emission, "kgCO2e", "kgCO2e", "kgCO2e", []Unit{in("kgCO2e", 1), in("gCO2e", 1e-3), in("tCO2e", 1e3), in("lbCO2e", pound)}},
	{EmissionPerMass, "kgCO2e/kg", "kgCO2e/kg", "kgCO2e/kg", []Unit{in("kgCO2e/kg", 1, "gCO2e/g", "lbCO2e/lb", "tCO2e/t"), in("gCO2e/kg", 1e-3, "kgCO2e/t")}},
	{EmissionPerEnergy, "kgCO2e/J", "kgCO2e/kWh", "kgCO2e/kWh", []Unit{
		in("kgCO2e/kWh", 1/kWh), in("gCO2e/kWh", 1e-3/kWh, "kgCO2e/MWh"), in("gCO2e/MJ", 1e-9), in("kgCO2e/MJ", 1e-6), in("lbCO2e/kWh", pound/kWh), in("kgCO2e/J", 1),
	}},
	{EmissionPerThousand, "kgCO2e/1000", "kgCO2e/1000", "kgCO2e/1000", []Unit{
		in("kgCO2e/1000", 1, "kgCO2e/1000 pcs", "kgCO2e/1000 bottles"), in("gCO2e/bottle", 1), in("lbCO2e/1000", pound, "lbCO2e/1000 bottles"),
	}},
}

// numbers holds the kinds without a dimension.
var numbers = []entry{
	{Fraction, "1", "%", "%", []Unit{in("%", 1e-2, "percent", "% RH"), in("ppm", 1e-6), in("1", 1)}},
	{Count, "", "", "", []Unit{in("", 1, "1", "-", "pcs", "pieces")}},
	{Ratio, "", "", "", []Unit{in("", 1, "1", "-", "x", "×")}},
}
