package unit

import (
	"errors"
	"math"
	"strings"
	"testing"
)

func TestParse(t *testing.T) {
	for _, c := range []struct {
		kind   Kind
		text   string
		si     float64
		symbol string
	}{
		{Length, "28 mm", 0.028, "mm"},
		{Length, "28mm", 0.028, "mm"},
		{Length, "  0.281   MM ", 0.281e-3, "mm"},
		{Length, "250 um", 250e-6, "µm"},
		{Length, "250 μm", 250e-6, "µm"},
		{Length, "11 mil", 11 * 2.54e-5, "mil"},
		{Length, `12.5"`, 0.3175, "in"},
		{Length, "+.5 in", 0.0127, "in"},
		{Length, "−2 mm", -0.002, "mm"},
		{Length, "5. mm", 0.005, "mm"},
		{Volume, "16.9 fl oz", 16.9 * 29.5735295625e-6, "fl oz"},
		{Volume, "16.9 US fl. oz.", 16.9 * 29.5735295625e-6, "fl oz"},
		{Volume, "10 UK fl oz", 284.130625e-6, "UK fl oz"},
		{Volume, "500 ml", 500e-6, "mL"},
		{Volume, "0.5 l", 500e-6, "L"},
		{Volume, "33 cl", 330e-6, "cL"},
		{Volume, "500 cm3", 500e-6, "cm³"},
		{Mass, "25 g", 0.025, "g"},
		{Mass, "3 lbs", 3 * 0.45359237, "lb"},
		{Time, "12 weeks", 12 * 7 * 86400, "weeks"},
		{Time, "1 week", 7 * 86400, "weeks"},
		{Time, "3 months", 3 * 30.4375 * 86400, "months"},
		{Time, "1 day", 86400, "d"},
		{TemperaturePoint, "85 °C", 358.15, "°C"},
		{TemperaturePoint, "85 deg C", 358.15, "°C"},
		{TemperaturePoint, "85ºC", 358.15, "°C"},
		{TemperaturePoint, "85 c", 358.15, "°C"},
		{TemperaturePoint, "185 F", 358.15, "°F"},
		{TemperaturePoint, "-40 °F", 233.15, "°F"},
		{TemperaturePoint, "0 K", 0, "K"},
		{TemperatureChange, "18 °F", 10, "°F"},
		{TemperatureChange, "10 °C", 10, "°C"},
		{PressureGauge, "9.5 bar(g)", 950000, "bar(g)"},
		{PressureGauge, "9.5 barg", 950000, "bar(g)"},
		{PressureGauge, "9.5 bar (g)", 950000, "bar(g)"},
		{PressureGauge, "9.5 bar gauge", 950000, "bar(g)"},
		{PressureGauge, "480 psig", 480 * 6894.757293168361, "psi(g)"},
		{PressureGauge, "480 PSI(G)", 480 * 6894.757293168361, "psi(g)"},
		{PressureGauge, "-0.3 bar(g)", -30000, "bar(g)"},
		{PressureGauge, "-1.01325 bar(g)", -101325, "bar(g)"},
		{PressureGauge, "-14.7 psi(g)", -101325, "psi(g)"}, // full vacuum, rounded
		{PressureAbs, "0 bar(a)", 0, "bar(a)"},
		{PressureAbs, "1 atm", 101325, "atm"},
		{Volume, "500 (mL)", 500e-6, "mL"},
		{Rate, "0.5 /s", 0.5, "1/s"},
		{PressureAbs, "14.7 psia", 14.7 * 6894.757293168361, "psi(a)"},
		{PressureAbs, "101.325 kPa abs", 101325, "kPa(a)"},
		{PressureAbs, "1013.25 hPa(a)", 101325, "mbar(a)"},
		{PressureChange, "300 mbar", 30000, "mbar"},
		{PressureChange, "10 inHg", 33863.88640341, "inHg"},
		{Stress, "2.1 GPa", 2.1e9, "GPa"},
		{Stress, "70 N/mm2", 70e6, "N/mm²"},
		{Force, "45.5 kgf", 45.5 * 9.80665, "kgf"},
		{Force, "200 tonf(US)", 200 * 8896.443230521, "tonf(US)"}, // NIST SP 811, ton-force (2000 lbf)
		{Force, "200 US tonf", 200 * 8896.443230521, "tonf(US)"},
		{Force, "30 daN", 300, "daN"},
		{Torque, "15 in-lb", 15 * 0.1129848290276167, "in·lb"},
		{Torque, "15 lbf.in", 15 * 0.1129848290276167, "in·lb"},
		{Torque, "15 in·lb (lbf)", math.NaN(), ""},
		{Torque, "1.7 Nm", 1.7, "N·m"},
		{Torque, "1.7 N m", 1.7, "N·m"},
		{Carbonation, "4 volumes of CO2", 4 * VolumeCO2, "vol"},
		{Carbonation, "8 g/L", 8, "g/L"},
		{Permeability, "5 cc·mm/(m²·d·atm)", 5 * 5.0963e-18, "cc·mm/(m²·d·atm)"},
		{Permeability, "5 cm3.mm/m2.day.atm", 5 * 5.0963e-18, "cc·mm/(m²·d·atm)"},
		{Permeability, "5 cm³(STP)·mm/(m²·d·atm)", 5 * 5.0963e-18, "cc·mm/(m²·d·atm)"},
		{Permeability, "5 mL mm m⁻² d⁻¹ atm⁻¹", 5 * 5.0963e-18, "cc·mm/(m²·d·atm)"},
		{Permeability, "10 cc mil/100in2/day/atm", 3.9370 * 5.0963e-18, "cc·mil/(100 in²·d·atm)"},
		{Permeability, "5.1×10⁻¹⁸ mol·m/(m²·s·Pa)", 5.1e-18, "mol·m/(m²·s·Pa)"},
		{Permeability, "5.1 x 10^-18 mol·m/(m²·s·Pa)", 5.1e-18, "mol·m/(m²·s·Pa)"},
		{VapourPermeability, "1 g·mm/(m²·d·kPa)", 1e-9 / 86400, "g·mm/(m²·d·kPa)"},
		{PackMassRate, "0.02 g/pack/day", 0.02e-3 / 86400, "g/(pack·d)"},
		{IntrinsicViscosity, "0.80 dl/g", 0.080, "dL/g"},
		{HeatCapacity, "1.2 kJ/kg/°C", 1200, "kJ/(kg·K)"},
		{HeatCapacity, "1200 J kg⁻¹ K⁻¹", 1200, "J/(kg·K)"},
		{Conductivity, "0.24 W/m·K", 0.24, "W/(m·K)"},
		{Rate, "0.5 s⁻¹", 0.5, "1/s"},
		{Rate, "28800 b/h", 8, "bottles/h"},
		{Output, "28800 bottles/hour", 8, "bottles/h"},
		{Fraction, "50 %", 0.5, "%"},
		{Fraction, "50%", 0.5, "%"},
		{Fraction, "0.25 1", 0.25, "1"},
		{Fraction, "300 ppm", 300e-6, "ppm"},
		{Count, "16", 16, ""},
		{Ratio, "4.8", 4.8, ""},
		{Ratio, "4.8 -", 4.8, ""},
		{Money, "€455", 455, "EUR"},
		{Money, "-455 GBP", -455, "GBP"},
		{PricePerMass, "1.15 EUR/kg", 1.15, "EUR/kg"},
		{PricePerMass, "CHF 1.15/kg", 1.15, "CHF/kg"},
		{PricePerMass, "$0.60/lb", 0.60 / 0.45359237, "USD/lb"},
		{PricePerThousand, "71.4 EUR/1000", 71.4, "EUR/1000"},
		{PricePerEnergy, "0.14 EUR/kWh", 0.14 / 3.6e6, "EUR/kWh"},
		{EmissionPerMass, "2.15 kg CO2e/kg", 2.15, "kgCO2e/kg"},
		{EmissionPerMass, "2.15 kgCO₂-eq/kg", 2.15, "kgCO2e/kg"},
		{EmissionPerEnergy, "300 g CO2e/kWh", 0.3 / 3.6e6, "gCO2e/kWh"},
		{Emission, "12 g CO2e", 0.012, "gCO2e"},
		{NormalVolume, "37.326 scf", 1, "scf"},
		{NormalEnergy, "0.22 kWh/Nm3", 0.22 * 3.6e6, "kWh/Nm³"},
		{Expansivity, "70e-6 1/K", 70e-6, "1/K"},
		{Angle, "30 deg", math.Pi / 6, "°"},
		{SolubilitySugar, "-0.1 %/(g/L)", -0.001, "%/(g/L)"},
		{Compliance, "0.25 mL/kPa", 0.25e-9, "mL/kPa"},
	} {
		got, err := Parse(c.kind, c.text)
		if math.IsNaN(c.si) {
			if err == nil {
				t.Errorf("Parse(%s, %q) = %+v, want an error", c.kind, c.text, got)
			}
			continue
		}
		if err != nil {
			t.Errorf("Parse(%s, %q): %v", c.kind, c.text, err)
			continue
		}
		// 2e-5 covers the five digits of the permeability factors.
		if math.Abs(got.SI-c.si) > 2e-5*math.Abs(c.si) || got.Symbol != c.symbol || got.Kind != c.kind {
			t.Errorf("Parse(%s, %q) = %+v, want %v %q", c.kind, c.text, got, c.si, c.symbol)
		}
	}
}

// Whole numbers of a decimal fraction of an SI unit convert to the last bit.
func TestParseIsExact(t *testing.T) {
	for text, want := range map[string]float64{"28 mm": 0.028, "330 mm": 0.33, "7 µm": 7e-6, "19 cm": 0.19} {
		if v, err := Parse(Length, text); err != nil || v.SI != want {
			t.Errorf("%s = %v, %v; want %v", text, v.SI, err, want)
		}
	}
}

func TestParseRefuses(t *testing.T) {
	for _, c := range []struct {
		kind Kind
		text string
		want string
	}{
		{Length, "28", `"28" needs a unit for length: mm, µm, cm, m, in, mil, ft or nm`},
		{Length, "", "is empty: write a number for length with its unit"},
		{Count, " ", "is empty: write a number for count"},
		{Length, "mm", "does not begin with a number"},
		{Carbonation, "<4.0 vol", "bounds the value and does not give it"},
		{Carbonation, "≥ 4.0 vol", "bounds the value and does not give it"},
		{Length, "1,5 mm", "has a comma: write 1.5 with a point"},
		{Length, "1,500 mm", "write 1.500 with a point, or 1500 without a separator"},
		{Length, ",5 mm", "write 0.5 with a point"},
		{Length, "1 500 mm", "has a separator: write 1500 without it"},
		{Length, "1'500 mm", "has a separator: write 1500 without it"},
		{Length, "1_500 mm", "has a separator: write 1500 without it"},
		{Length, "1.500.000 mm", "has two points: write 1500000 without separators"},
		{Volume, "1.5.0 L", "is not one number, it has two points: write it with one point before the decimals"},
		{Volume, "1,5,0 L", "is not one number, it has two commas"},
		{Volume, "1'5 L", "is not one number, it has one apostrophe"},
		{Volume, "0.500.000 L", "is not one number"},
		{Length, "0,500 mm", "has a comma: write 0.500 with a point"},
		{Count, "1 000", "has a separator: write 1000 without it"},
		{Count, "1_000_000", "has a separator: write 1000000 without it"},
		{Count, "1 000 000", "has a separator: write 1000000 without it"},
		{Count, "1'000'000", "has a separator: write 1000000 without it"},
		{Count, "30,000,000", "has a separator: write 30000000 without it"},
		{Count, "1.000.000", "has two points: write 1000000 without separators"},
		{Count, "1.000.000.000", "has 3 points: write 1000000000 without separators"},
		{Volume, "1.500,5 mL", "has separators: write 1500.5 without them"},
		{Volume, "1,500.5 mL", "has separators: write 1500.5 without them"},
		{Volume, "1.500.000,25 mL", "has separators: write 1500000.25 without them"},
		{Volume, "1 500,5 mL", "has separators: write 1500.5 without them"},
		{Volume, "-1'500.5 mL", "has separators: write -1500.5 without them"},
		{Volume, "1.5,5 mL", "mixes separators: write one number"},
		{Volume, "1,5_5 mL", "mixes separators: write one number"},
		{Volume, "1.500,500.5 mL", "mixes separators: write one number"},
		{Volume, "12,34,5 mL", "is not one number, it has two commas"},
		{Volume, "500 -mL", `has the unknown unit "-mL"`},
		{Volume, "500-mL", `has the unknown unit "-mL"`},
		{Volume, "500 )mL(", `has the unknown unit ")mL("`},
		{Volume, "500 (mL", "has the unknown unit"},
		{Volume, "500 mL)", "has the unknown unit"},
		{Volume, "500 .mL", `has the unknown unit ".mL"`},
		{Volume, "500 *mL", "has the unknown unit"},
		{Volume, "500 mL-", "has the unknown unit"},
		{PricePerMass, "1.15 (EUR/kg", "has the unknown unit"},
		{PricePerMass, "1.15 EUR//kg", "has the unknown unit"},
		{Length, "1/8 in", "has a fraction: write 0.125 with a point"},
		{Length, "3 1/2 in", "has a fraction: write 3.5 with a point"},
		{Length, "-5-1/2 in", "has a fraction: write -5.5 with a point"},
		{Length, "1 ½ in", "has a fraction: write 1.5 with a point"},
		{Length, "⅞ in", "has a fraction: write 0.875 with a point"},
		{Length, "1/3 in", "has a fraction: write 0.333333 with a point"},
		{Length, "1/0 in", `has the unknown unit "/0 in"`},
		{Length, "0x1p-2 m", "is a hexadecimal number"},
		{Length, "NaN", "is not a finite number"},
		{Length, "-Inf", "is not a finite number"},
		{Length, "1e400 mm", "is too large"},
		{Length, "1e250 mm", "is too large"},
		{Length, "1e-400 mm", "is too small"},
		{Length, "1e-250 mm", "is too small"},
		{Permeability, "1e-195 Barrer", "is too small in mol·m/(m²·s·Pa)"},
		{Length, strings.Repeat("9", 300), "is longer than 200 bytes"},
		{Length, "28 g", "is in g, a unit of mass; accepted for length: mm,"},
		{Volume, "16.9 oz", "is in oz, a unit of mass; accepted for volume"},
		{Length, "28 furlongs", `has the unknown unit "furlongs" for length; accepted: mm,`},
		{Length, "28 m m", `has the unknown unit "m m"`},
		{Length, "28 Mm", `has the unknown unit "Mm"`},
		{Stress, "2 mPa", `has the unknown unit "mPa"`},
		{Count, "16 mm", "has a unit: a count is a bare number"},
		{Ratio, "4.8 %", "has a unit: a ratio is a bare number"},
		{Fraction, "0.5", "needs a unit for fraction: %, ppm or 1"},
		{PressureGauge, "35 bar", "must state gauge or absolute: bar(g) and psi(g) count from the ambient pressure"},
		{PressureGauge, "500 psi", "must state gauge or absolute"},
		{PressureGauge, "1 atm", "is an absolute pressure, and a gauge pressure is wanted"},
		{PressureAbs, "35 bar", "must state gauge or absolute"},
		{PressureAbs, "500 kPa", "accepted for absolute pressure: bar(a),"},
		{PressureGauge, "35 bar(a)", "is an absolute pressure, and a gauge pressure is wanted"},
		{PressureGauge, "35 psia", "is an absolute pressure, and a gauge pressure is wanted"},
		{PressureAbs, "35 barg", "is a gauge pressure, and an absolute pressure is wanted; the two differ by the ambient pressure"},
		{PressureChange, "0.3 bar(g)", "states gauge or absolute, and a pressure difference is neither"},
		{PressureAbs, "-1 bar(a)", "is below vacuum"},
		{PressureGauge, "-2 bar(g)", "is below vacuum, which is -1.01325 bar(g) at sea level"},
		{PressureGauge, "-1.014 bar(g)", "is below vacuum"},
		{PressureGauge, "-15 psi(g)", "is below vacuum, which is -14.6959 psi(g) at sea level"},
		{TemperaturePoint, "-300 °C", "is below absolute zero"},
		{PricePerMass, "1.15", "needs a unit for price per mass: EUR/kg, EUR/t or EUR/lb"},
		{PricePerMass, "1.15 eu/kg", "has the unknown unit"},
		{PricePerMass, "1.15 EURO/kg", "has the unknown unit"},
		{Length, "5–10 mm", "has the unknown unit"},
		{Length, "28 \xff mm", "has the unknown unit"},
	} {
		v, err := Parse(c.kind, c.text)
		var pe *ParseError
		if !errors.As(err, &pe) {
			t.Errorf("Parse(%s, %q) = %+v, want an error with %q", c.kind, c.text, v, c.want)
			continue
		}
		if !strings.Contains(err.Error(), c.want) {
			t.Errorf("Parse(%s, %q): %v\nwant %q", c.kind, c.text, err, c.want)
		}
		if v != (Value{}) || pe.Text != c.text || pe.Kind != c.kind {
			t.Errorf("Parse(%s, %q) = %+v beside %+v", c.kind, c.text, v, pe)
		}
	}
}

func TestParseErrorListsUnits(t *testing.T) {
	_, err := Parse(Angle, "30")
	var pe *ParseError
	if !errors.As(err, &pe) || strings.Join(pe.Accepted, " ") != "° rad mrad" {
		t.Errorf("%#v", err)
	}
}

func TestCurrency(t *testing.T) {
	for symbol, want := range map[string]string{"EUR/kg": "EUR", "CHF": "CHF", "kg": "", "EURO": "", "eur/kg": "", "EUR/1000": "EUR", "BTU/lb": "", "BTU": "", "ABC/kg": "ABC", "EUR/kWh": "EUR", "EUR/m²": ""} {
		if code, ok := Currency(symbol); code != want || ok != (want != "") {
			t.Errorf("Currency(%q) = %q, %v", symbol, code, ok)
		}
	}
	for _, c := range [][3]string{
		{"EUR/kg", "USD", "USD/kg"}, {"EUR", "JPY", "JPY"}, {"EUR/kg", "usd", "EUR/kg"}, {"mm", "USD", "mm"}, {"EUR/kg", "USD/lb", "EUR/kg"},
	} {
		if got := WithCurrency(c[0], c[1]); got != c[2] {
			t.Errorf("WithCurrency(%q, %q) = %q, want %q", c[0], c[1], got, c[2])
		}
	}
	u, ok := Find(PricePerMass, "CHF/t")
	if !ok || u.Symbol != "CHF/t" || u.Scale != 1e-3 {
		t.Errorf("%+v, %v", u, ok)
	}
}
