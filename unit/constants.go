package unit

// Exact factors of the customary units, SI.
// Source: NISTSP811, table B.8 (from memory); each is exact by definition.
const (
	inch       = 0.0254
	foot       = 0.3048
	mil        = 2.54e-5
	pound      = 0.45359237
	ounce      = pound / 16
	pounds     = pound * Gravity // pound-force [N]
	psi        = pounds / (inch * inch)
	usGallon   = 231 * inch * inch * inch
	usFluidOz  = usGallon / 128 // 29.5735295625 mL
	ukFluidOz  = 28.4130625e-6
	btu        = 1055.05585262 // International Table
	horsepower = 550 * foot * pounds
	rankine    = 5.0 / 9
	degree     = 3.14159265358979323846 / 180
)

// Columns of mercury and water, conventional densities 13595.1 and 1000 kg/m³
// at standard gravity [Pa].
const (
	mmHg   = 13.5951 * Gravity
	inHg   = 25.4 * mmHg
	mmH2O  = Gravity
	inH2O  = 25.4 * mmH2O
	barPa  = 1e5
	torqIn = pounds * inch // inch-pound [N·m]
)

// Times [s]. A month is the twelfth of a Julian year of 365.25 d.
const (
	minute = 60.0
	hour   = 3600.0
	day    = 86400.0
	week   = 7 * day
	year   = 365.25 * day
	month  = year / 12 // 30.4375 d
)

// MolarVolumeSTP is the volume of one mole of an ideal gas at 0 °C and
// 101325 Pa [m³/mol], R T / p = 0.022413970. It turns the cm³(STP) of
// permeability into moles. Exact since the 2019 redefinition of the SI.
// Source: SI2019.
const MolarVolumeSTP = GasConstant * float64(ZeroCelsius) / float64(Atm)

// MolarMassCO2 is the molar mass of carbon dioxide [kg/mol]. The atomic
// weights in present use, 12.011 and 15.999, sum to 44.009; the difference is
// 11 ppm.
// Source: NISTWebBook.
const MolarMassCO2 = 44.0095e-3

// MolarVolumeCO2 is the volume V of one mole of carbon dioxide, a real gas, at
// 0 °C and 101325 Pa [m³/mol], 0.67 % below [MolarVolumeSTP]. It solves
//
//	p V / (R T) = 1 + B/V
//
// with the second virial coefficient B = -149.64 cm³/mol.
// Source: Weiss1974 for B. Checked in cite/unitchecks.go.
const MolarVolumeCO2 = 22.263e-3

// VolumeCO2 is the carbonation of one volume [kg CO2 per m³ of drink]:
//
//	1 vol = 1 L of CO2 at 0 °C and 1 atm in 1 L of drink = M/V = 1.9768 g/L
//
// The trade rounds it to 1.96 or 2 g/L; costrel keeps the physical value.
const VolumeCO2 = MolarMassCO2 / MolarVolumeCO2

// standardFoot is one cubic foot of gas at 60 °F and 101325 Pa as a volume at
// 0 °C [Nm³]; 1 Nm³ = 37.326 scf.
const standardFoot = foot * foot * foot * float64(ZeroCelsius) / (519.67 * rankine)

// warmFoot is one cubic foot of gas at 68 °F and 101325 Pa [Nm³].
const warmFoot = foot * foot * foot * float64(ZeroCelsius) / (527.67 * rankine)

// cc is one cm³(STP) of an ideal gas [mol].
const cc = 1e-6 / MolarVolumeSTP
