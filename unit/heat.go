package unit

// heat holds the kinds of temperature, energy, heat flow and amount.
var heat = []entry{
	{TemperaturePoint, "K", "°C", "°F", []Unit{
		{Symbol: "°C", Aliases: []string{"C"}, Scale: 1, Offset: float64(ZeroCelsius)},
		{Symbol: "°F", Aliases: []string{"F"}, Scale: rankine, Offset: 459.67 * rankine},
		in("K", 1, "kelvin"),
	}},
	{TemperatureChange, "K", "K", "°F", []Unit{
		in("K", 1, "kelvin"), in("°C", 1, "C"), in("°F", rankine, "F"),
	}},
	{Energy, "J", "kJ", "BTU", []Unit{
		in("J", 1), in("kJ", 1e3), in("MJ", 1e6), in("GJ", 1e9), in("mJ", 1e-3), in("Wh", hour), in("kWh", 1e3*hour), in("MWh", 1e6*hour),
		in("BTU", btu, "Btu"), in("ft·lb", foot*pounds, "ft·lbf", "ftlb"), in("N·m", 1, "Nm"),
	}},
	{Power, "W", "kW", "kW", []Unit{
		in("kW", 1e3), in("W", 1), in("MW", 1e6), in("mW", 1e-3), in("hp", horsepower), in("BTU/h", btu/hour),
	}},
	{SpecificEnergy, "J/kg", "kJ/kg", "BTU/lb", []Unit{
		in("kJ/kg", 1e3, "J/g"), in("J/kg", 1), in("MJ/kg", 1e6), in("kWh/kg", 1e3*hour), in("kWh/t", hour), in("kWh/lb", 1e3*hour/pound), in("BTU/lb", btu/pound),
	}},
	{Conductivity, "W/(m·K)", "W/(m·K)", "W/(m·K)", []Unit{
		in("W/(m·K)", 1, "W/mK"), in("mW/(m·K)", 1e-3), in("BTU/(h·ft·°F)", btu/(hour*foot*rankine)),
	}},
	{HeatCapacity, "J/(kg·K)", "J/(kg·K)", "BTU/(lb·°F)", []Unit{
		in("J/(kg·K)", 1, "J/kgK"), in("J/(g·K)", 1e3, "J/gK"), in("kJ/(kg·K)", 1e3, "kJ/kgK"), in("BTU/(lb·°F)", btu/(pound*rankine)),
	}},
	{HeatTransfer, "W/(m²·K)", "W/(m²·K)", "BTU/(h·ft²·°F)", []Unit{
		in("W/(m²·K)", 1), in("kW/(m²·K)", 1e3), in("BTU/(h·ft²·°F)", btu/(hour*foot*foot*rankine)),
	}},
	{HeatFlux, "W/m²", "kW/m²", "kW/m²", []Unit{
		in("kW/m²", 1e3), in("W/m²", 1), in("W/cm²", 1e4), in("BTU/(h·ft²)", btu/(hour*foot*foot)),
	}},
	{Attenuation, "1/m", "1/mm", "1/mm", []Unit{in("1/mm", 1e3), in("1/cm", 1e2), in("1/m", 1), in("1/in", 1/inch)}},
	{Expansivity, "1/K", "ppm/K", "ppm/°F", []Unit{
		in("ppm/K", 1e-6, "10⁻⁶/K", "1e-6/K", "µm/(m·K)"), in("1/K", 1, "m/(m·K)"), in("%/K", 1e-2), in("ppm/°F", 1e-6/rankine, "10⁻⁶/°F", "1e-6/°F", "µin/(in·°F)"), in("1/°F", 1/rankine, "in/(in·°F)"),
	}},
	{MolarEnergy, "J/mol", "kJ/mol", "kJ/mol", []Unit{in("kJ/mol", 1e3), in("J/mol", 1), in("kcal/mol", 4184)}},
	{Amount, "mol", "mmol", "mmol", []Unit{in("mmol", 1e-3), in("mol", 1), in("µmol", 1e-6)}},
	{MolarMass, "kg/mol", "g/mol", "g/mol", []Unit{in("g/mol", 1e-3), in("kg/mol", 1)}},
}
