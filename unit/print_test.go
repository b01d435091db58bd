package unit

import (
	"math"
	"testing"
)

func TestFormat(t *testing.T) {
	for _, c := range []struct {
		kind   Kind
		si     float64
		symbol string
		digits int
		want   string
	}{
		{Length, 0.281e-3, "mm", 3, "0.281 mm"},
		{Length, 0.028, "mm", 4, "28 mm"},
		{Length, 0.028, "um", 4, "28000 µm"},
		{Volume, 1.811e-3, "mL", 4, "1811 mL"},
		{PressureGauge, 4.29e5, "bar(g)", 3, "4.29 bar(g)"},
		{PressureGauge, 4.29e5, "psig", 3, "62.2 psi(g)"},
		{Volume, 123456e-6, "mL", 3, "123000 mL"},
		{Ratio, 71.4, "", 3, "71.4"},
		{Count, 16, "", 3, "16"},
		{Length, 9.9996e-3, "mm", 4, "10 mm"},
		{Length, -9.9996e-3, "mm", 4, "-10 mm"},
		{Permeability, 5.0963e-18, "mol·m/(m²·s·Pa)", 5, "5.0963e-18 mol·m/(m²·s·Pa)"},
		{Length, 1e-4, "m", 3, "0.0001 m"},
		{Length, 9.9e-5, "m", 3, "9.9e-5 m"},
		{Length, 9999999, "m", 7, "9999999 m"},
		{Length, 9999999, "m", 3, "1e7 m"},
		{Length, 1.25e7, "m", 3, "1.25e7 m"},
		{Length, 0, "mm", 3, "0 mm"},
		{Length, math.Copysign(0, -1), "mm", 3, "0 mm"},
		{Length, 0.1234567890123, "m", 0, "0.1234567890123 m"},
		{Length, 0.1234, "m", 99, "0.1234 m"},
		{Angle, math.Pi / 2, "°", 3, "90°"},
		{Fraction, 0.25, "%", 3, "25 %"},
		{Fraction, 0.25, "1", 3, "0.25 1"},
		{TemperaturePoint, 358.15, "°C", 3, "85 °C"},
		{TemperaturePoint, 358.15, "°F", 3, "185 °F"},
		{TemperatureChange, 10, "°F", 3, "18 °F"},
		{PricePerThousand, 71.4, "USD/1000", 3, "71.4 USD/1000"},
		{Length, 0.028, "parsec", 3, "0.028 m"}, // unknown: SI
		{Length, 1e308, "nm", 3, "1e308 m"},     // beyond the unit: SI
		{Length, math.NaN(), "mm", 3, "n/a"},
		{Length, math.Inf(1), "mm", 3, "n/a"},
		{"mood", 3, "m", 3, "3"},
	} {
		if got := Format(c.kind, c.si, c.symbol, c.digits); got != c.want {
			t.Errorf("Format(%s, %v, %q, %d) = %q, want %q", c.kind, c.si, c.symbol, c.digits, got, c.want)
		}
	}
}

func TestShow(t *testing.T) {
	for _, c := range []struct {
		kind   Kind
		si     float64
		eu, us string
	}{
		{Length, 0.28149e-3, "0.281 mm", "0.01108 in"},
		{Length, 0.0123456, "12.35 mm", "0.486 in"},
		{Length, 0.30512, "305.1 mm", "12.01 in"},
		{Length, 40e-9, "4e-5 mm", "1.575e-6 in"},
		{Volume, 0.5e-3, "500 mL", "16.91 fl oz"},
		{Volume, 0.0123456, "12346 mL", "417.5 fl oz"},
		{Mass, 25.04e-3, "25.04 g", "25.04 g"},
		{PressureGauge, 36e5, "36 bar(g)", "522.1 psi(g)"},
		{TemperaturePoint, 378.15, "105 °C", "221 °F"},
		{TemperaturePoint, 273.15 + 1.23456, "1.23 °C", "34.22 °F"},
		{TemperaturePoint, 273.15 + 0.04, "0.04 °C", "32.07 °F"},
		{Torque, 1.7, "1.7 N·m", "15.05 in·lb"},
		{Force, 446, "446 N", "100.3 lbf"},
		{Carbonation, 4 * VolumeCO2, "7.907 g/L", "4 vol"},
		{Output, 8, "28800 bottles/h", "28800 bottles/h"},
		{Ratio, 12.34567, "12.35", "12.35"},
		{Permeability, 2.5481e-17, "5 cc·mm/(m²·d·atm)", "12.7 cc·mil/(100 in²·d·atm)"},
		{Length, math.NaN(), "n/a", "n/a"},
		{"mood", 1.5, "1.5", "1.5"},
	} {
		if got := Show(c.kind, c.si, EU); got != c.eu {
			t.Errorf("Show(%s, %v, EU) = %q, want %q", c.kind, c.si, got, c.eu)
		}
		if got := Show(c.kind, c.si, US); got != c.us {
			t.Errorf("Show(%s, %v, US) = %q, want %q", c.kind, c.si, got, c.us)
		}
	}
}
