package drink

import (
	"math"

	"costrel/unit"
)

// Molar masses [kg/mol], from the standard atomic weights. From memory.
const (
	MolarMassCO2      = unit.MolarMassCO2
	MolarMassOxygen   = 31.9988e-3
	MolarMassNitrogen = 28.0134e-3
	MolarMassWater    = 18.015268e-3
	MolarMassSucrose  = 342.2965e-3
)

// PartialVolumeCO2 is the partial molar volume of carbon dioxide dissolved in
// water [m³/mol]: what a dissolved mole adds to the liquid. Source: Weiss1974.
const PartialVolumeCO2 = 32.3e-6

// Oxygen and nitrogen in dry air by volume; the rest is argon. From memory.
const (
	AirOxygen   = 0.2095
	AirNitrogen = 0.7808
)

const (
	gasR = unit.GasConstant
	atm  = float64(unit.Atm)
)

// Volumes returns the volumes of carbon dioxide (0 °C, 101325 Pa, real gas) of
// a carbonation of c [kg/m³ = g/L]. One volume is 1.9768 g/L; the ideal gas
// would make it 1.964 g/L.
func Volumes(c float64) float64 { return c / unit.VolumeCO2 }

// FromVolumes returns the carbonation [kg/m³] of v volumes.
func FromVolumes(v float64) float64 { return v * unit.VolumeCO2 }

// SecondVirialCO2 returns the second virial coefficient of carbon dioxide
// [m³/mol] at T [K].
//
//	B = -1636.75 + 12.0408 T - 3.27957e-2 T² + 3.16528e-5 T³   [cm³/mol]
//
// Holds for 265..320 K (from memory); against TsonopoulosCO2 it stays within 2
// cm³/mol over 0..60 °C and 7 cm³/mol to 100 °C. Source: Weiss1974.
func SecondVirialCO2(t unit.Temperature) float64 {
	T := float64(t)
	return (-1636.75 + T*(12.0408+T*(-3.27957e-2+T*3.16528e-5))) * 1e-6
}

// TsonopoulosCO2 returns the second virial coefficient of carbon dioxide
// [m³/mol] from the corresponding-states correlation of a non-polar gas
// (Tc 304.13 K, pc 7.3773 MPa, omega 0.22394). It is here as the independent
// check of SecondVirialCO2. Source: Tsonopoulos1974.
func TsonopoulosCO2(t unit.Temperature) float64 {
	const tc, pc, omega = 304.13, 7.3773e6, 0.22394
	r := tc / float64(t)
	r3 := r * r * r
	r8 := r3 * r3 * r * r
	f0 := 0.1445 - 0.330*r - 0.1385*r*r - 0.0121*r3 - 0.000607*r8
	f1 := 0.0637 + 0.331*r*r - 0.423*r3 - 0.008*r8
	return gasR * tc / pc * (f0 + omega*f1)
}

// MolarVolumeCO2 returns the molar volume of gaseous carbon dioxide [m³/mol]
// at p [Pa] and T.
//
//	V = R T/p + B(T)
//
// For p up to about 1.5 MPa, above which the third virial shows.
func MolarVolumeCO2(t unit.Temperature, p float64) float64 {
	return gasR*float64(t)/p + SecondVirialCO2(t)
}

// FugacityCO2 returns the fugacity coefficient of carbon dioxide in a gas at
// the total pressure p [Pa].
//
//	phi = exp(B p/(R T))
//
// 0.975 at 5 bar and 22 °C. For p up to about 1.5 MPa.
func FugacityCO2(t unit.Temperature, p float64) float64 {
	return math.Exp(SecondVirialCO2(t) * p / (gasR * float64(t)))
}

// PoyntingCO2 returns the factor by which the total pressure p [Pa] changes the
// solubility of carbon dioxide at given fugacity.
//
//	exp(-v (p - 101325 Pa)/(R T)), v = PartialVolumeCO2
//
// 0.995 at 5 bar and 22 °C. Source: Weiss1974.
func PoyntingCO2(t unit.Temperature, p float64) float64 {
	return math.Exp(-PartialVolumeCO2 * (p - atm) / (gasR * float64(t)))
}

// HenryCO2 returns the solubility of carbon dioxide in water [mol/(kg Pa)] by
// the default law, "plummer-busenberg": moles per kilogram of water and pascal
// of fugacity at 1 atm total pressure. See [Law] for the others.
func HenryCO2(t unit.Temperature) float64 { return plummerBusenberg(float64(t)) }

// HenryOxygen returns the solubility of oxygen in water [mol/(kg Pa)].
// Fit 274.15..616.52 K; within 1.4 % of Weiss1970 over 0..40 °C.
// Source: IAPWSG704.
func HenryOxygen(t unit.Temperature) float64 {
	return guideline(float64(t), -9.44833, 4.43822, 11.42005)
}

// HenryNitrogen returns the solubility of nitrogen in water [mol/(kg Pa)].
// Fit 278.12..636.46 K; a short extrapolation below, within 2.9 % of Weiss1970
// over 0..40 °C. Source: IAPWSG704.
func HenryNitrogen(t unit.Temperature) float64 {
	return guideline(float64(t), -9.67578, 4.72162, 11.70585)
}

// guideline returns the solubility [mol/(kg Pa)] in the form of IAPWSG704,
// which gives Henry's constant kH = f/x [Pa]:
//
//	ln(kH/ps) = A/Tr + B tau^0.355/Tr + C Tr^-0.41 exp(tau), Tr = T/647.096 K, tau = 1 - Tr
//
// x is turned into moles per kilogram of water at infinite dilution.
func guideline(T, a, b, c float64) float64 {
	tr := T / waterTc
	tau := 1 - tr
	kh := float64(VapourPressure(unit.Temperature(T))) *
		math.Exp((a+b*math.Pow(tau, 0.355))/tr+c*math.Pow(tr, -0.41)*math.Exp(tau))
	return 1 / (kh * MolarMassWater)
}

// AirSaturation returns the mass concentrations of oxygen and nitrogen [kg/m³]
// in water at rest under moist air of the total pressure p.
func AirSaturation(t unit.Temperature, p unit.AbsPressure) (oxygen, nitrogen float64) {
	dry := math.Max(0, float64(p-VapourPressure(t)))
	rho := WaterDensity(t)
	return AirOxygen * dry * HenryOxygen(t) * rho * MolarMassOxygen,
		AirNitrogen * dry * HenryNitrogen(t) * rho * MolarMassNitrogen
}
