package unit

// Kind names what a number measures. Each kind has one SI unit and a list of
// units in which the trade writes it.
type Kind string

// The kinds of quantity that costrel reads and prints.
const (
	Length             Kind = "length"                              // m
	Area               Kind = "area"                                // m²
	Volume             Kind = "volume"                              // m³
	Mass               Kind = "mass"                                // kg
	Time               Kind = "time"                                // s
	TemperaturePoint   Kind = "temperature"                         // K
	TemperatureChange  Kind = "temperature difference"              // K
	PressureGauge      Kind = "gauge pressure"                      // Pa
	PressureAbs        Kind = "absolute pressure"                   // Pa
	PressureChange     Kind = "pressure difference"                 // Pa; vacuum below ambient, too
	Stress             Kind = "stress"                              // Pa; modulus, strength
	Force              Kind = "force"                               // N
	Torque             Kind = "torque"                              // N·m
	Energy             Kind = "energy"                              // J
	Power              Kind = "power"                               // W
	Speed              Kind = "speed"                               // m/s
	Density            Kind = "density"                             // kg/m³
	Carbonation        Kind = "carbonation"                         // kg CO2 per m³ of drink; vol, g/L
	Concentration      Kind = "concentration"                       // kg/m³; g/L, mg/L
	Fraction           Kind = "fraction"                            // 1; %, ppm
	Angle              Kind = "angle"                               // rad
	Permeability       Kind = "gas permeability"                    // mol·m/(m²·s·Pa)
	VapourPermeability Kind = "water permeability"                  // kg·m/(m²·s·Pa)
	GasConductance     Kind = "gas conductance"                     // mol/(s·Pa) of one closure or pack
	VapourConductance  Kind = "water conductance"                   // kg/(s·Pa) of one closure or pack
	PackMassRate       Kind = "mass rate of a pack"                 // kg/s; g/(pack·d)
	NormalVolume       Kind = "normal volume"                       // m³ at 0 °C and 101325 Pa; Nm³
	NormalEnergy       Kind = "energy per normal volume"            // J/Nm³
	IntrinsicViscosity Kind = "intrinsic viscosity"                 // m³/kg; dL/g
	SpecificEnergy     Kind = "specific energy"                     // J/kg
	Compliance         Kind = "compliance"                          // m³/Pa
	Diffusivity        Kind = "diffusivity"                         // m²/s
	Conductivity       Kind = "thermal conductivity"                // W/(m·K)
	HeatCapacity       Kind = "heat capacity"                       // J/(kg·K)
	HeatTransfer       Kind = "heat transfer coefficient"           // W/(m²·K)
	MolarEnergy        Kind = "molar energy"                        // J/mol
	Rate               Kind = "rate"                                // 1/s; bottles/h
	Count              Kind = "count"                               // 1, written bare
	Ratio              Kind = "ratio"                               // 1, written bare
	PricePerMass       Kind = "price per mass"                      // currency/kg
	PricePerEnergy     Kind = "price per energy"                    // currency/J
	PricePerThousand   Kind = "price per 1000"                      // currency per 1000 pieces
	Money              Kind = "money"                               // currency
	EmissionPerMass    Kind = "emission per mass"                   // kg CO2e/kg
	EmissionPerEnergy  Kind = "emission per energy"                 // kg CO2e/J
	Emission           Kind = "emission"                            // kg CO2e
	SolubilitySugar    Kind = "solubility change per concentration" // m³/kg; %/(g/L)
	Expansivity        Kind = "thermal expansion"                   // 1/K
	MassPerVolumeRate  Kind = "mass flow"                           // kg/s; g/s
)

// Kinds of the machine, the wall and 1000 pieces.
const (
	Output                  Kind = "output"                    // bottles/s of a machine; bottles/h
	StrainRate              Kind = "strain rate"               // 1/s
	Viscosity               Kind = "viscosity"                 // Pa·s
	Stiffness               Kind = "stiffness"                 // N/m; N/mm of a top load
	Attenuation             Kind = "attenuation"               // 1/m; absorption of radiation
	HeatFlux                Kind = "heat flux"                 // W/m²
	MolarMass               Kind = "molar mass"                // kg/mol
	Amount                  Kind = "amount of substance"       // mol
	Compressibility         Kind = "compressibility"           // 1/Pa
	GasSolubility           Kind = "gas solubility"            // mol/(m³·Pa) in the wall
	DrinkSolubility         Kind = "gas solubility in a drink" // mol/(m³·Pa) per volume of liquid
	GasPermeance            Kind = "gas permeance"             // mol/(m²·s·Pa) of one wall
	GasLeak                 Kind = "gas leak"                  // mol/(s·Pa²) of one closure: viscous flow goes with the squares of the pressures
	VapourPermeance         Kind = "water permeance"           // kg/(m²·s·Pa) of one wall
	PackGasRate             Kind = "gas rate of a pack"        // mol/s; cm³/(pack·d)
	NormalFlow              Kind = "normal flow"               // m³/s at 0 °C and 101325 Pa; Nm³/h
	NormalVolumePerThousand Kind = "normal volume per 1000"    // Nm³ per 1000 pieces
	EnergyPerThousand       Kind = "energy per 1000"           // J per 1000 pieces
	EmissionPerThousand     Kind = "emission per 1000"         // kg CO2e per 1000 pieces
)
