package unit

import (
	"math"
	"testing"
)

func TestGaugeAndAbsolute(t *testing.T) {
	p := GaugePressure(35e5)
	if got := p.Abs(Atm); got != 3601325 {
		t.Errorf("35 bar(g) at sea level = %v Pa(a), want 3601325", got)
	}
	if got := p.Abs(Atm).Gauge(Atm); got != p {
		t.Errorf("back: %v", got)
	}
	if got := AbsPressure(0.7e5).Gauge(1e5); math.Abs(float64(got)+0.3e5) > 1e-9 {
		t.Errorf("0.7 bar(a) under 1 bar = %v Pa(g), want -0.3 bar", got)
	}
}

func TestTemperatures(t *testing.T) {
	hot, cold := Celsius(85), Celsius(20)
	if hot != 358.15 || math.Abs(hot.Celsius()-85) > 1e-12 {
		t.Errorf("85 °C = %v K, back %v °C", hot, hot.Celsius())
	}
	if d := hot.Sub(cold); math.Abs(float64(d)-65) > 1e-12 || cold.Add(d) != hot {
		t.Errorf("85 °C - 20 °C = %v K", d)
	}
}

// 1 vol is 1.977 g/L; the ideal gas would give 1.9635.
func TestVolumeOfCO2(t *testing.T) {
	if math.Abs(VolumeCO2-1.9768) > 5e-5 {
		t.Errorf("1 vol = %v g/L", VolumeCO2)
	}
	if ideal := MolarMassCO2 / MolarVolumeSTP; math.Abs(ideal-1.9635) > 5e-5 {
		t.Errorf("ideal: %v g/L", ideal)
	}
}
