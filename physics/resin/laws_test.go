package resin

import (
	"math"
	"strings"
	"testing"

	"costrel/unit"

	"pgregory.net/rapid"
)

func TestCrystallinityRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := rapid.SampledFrom(DensityPairs()).Draw(t, "pair")
		rho := rapid.Float64Range(p.Amorphous, p.Crystal).Draw(t, "rho")
		phi, err := p.VolumeFraction(rho)
		if err != nil {
			t.Fatal(err)
		}
		w, err := p.MassFraction(rho)
		if err != nil {
			t.Fatal(err)
		}
		if w < phi-1e-12 {
			t.Fatalf("mass fraction %g below volume fraction %g", w, phi)
		}
		byVolume, err1 := p.DensityAtVolume(phi)
		byMass, err2 := p.DensityAtMass(min(w, 1))
		if err1 != nil || err2 != nil || math.Abs(byVolume-rho) > 1e-8 || math.Abs(byMass-rho) > 1e-8 {
			t.Fatalf("density %g came back as %g (%v) and %g (%v)", rho, byVolume, err1, byMass, err2)
		}
	})
}

func TestCrystallinityRefuses(t *testing.T) {
	for _, rho := range []float64{1334, 1456, math.NaN(), math.Inf(1), 0} {
		if v, err := Older().VolumeFraction(rho); err == nil {
			t.Errorf("density %g gave %g", rho, v)
		}
	}
	if _, err := (DensityPair{}).MassFraction(1350); err == nil {
		t.Error("an empty pair was used")
	}
	if _, err := Older().DensityAtVolume(1.1); err == nil {
		t.Error("crystallinity 1.1 was accepted")
	}
	if _, err := Older().DensityAtMass(math.NaN()); err == nil {
		t.Error("crystallinity NaN was accepted")
	}
}

func TestOrientation(t *testing.T) {
	for _, o := range Orientations() {
		E, _, err := o.Modulus(1, 1)
		if err != nil || math.Abs(E-2.2e9) > 1 {
			t.Errorf("%s: unstretched %g Pa (%v), want 2.2e9", o.Name(), E, err)
		}
		if f, err := FindOrientation(o.Name()); err != nil || f.Name() != o.Name() {
			t.Errorf("%s: not found by its name: %v", o.Name(), err)
		}
		last := 0.0
		for l := 1.0; l <= 6; l += 0.25 {
			E, _, err := o.Modulus(l, 2.5)
			if err != nil || E < last {
				t.Errorf("%s: modulus %g Pa at %g after %g (%v)", o.Name(), E, l, last, err)
			}
			last = E
		}
		for _, bad := range [][2]float64{{0.5, 2}, {2, 9}, {math.NaN(), 2}, {2, math.Inf(1)}} {
			if E, _, err := o.Modulus(bad[0], bad[1]); err == nil {
				t.Errorf("%s: %v gave %g Pa", o.Name(), bad, E)
			}
		}
	}
	if _, err := FindOrientation("cubic"); err == nil {
		t.Error("law cubic was found")
	}
	// Power law by hand: 2.2 + 0.75 * 3.3 * 2.4^0.3 = 2.2 + 2.475*1.30036.
	E, warn, err := DefaultPower().Modulus(4.3, 2.4)
	if err != nil || math.Abs(E-5.4184e9) > 1e6 {
		t.Errorf("power law %g Pa (%v), want 5.418e9", E, err)
	}
	if len(warn) != 1 || !strings.Contains(warn[0], "4.30") {
		t.Errorf("warnings %q, want one about 4.30", warn)
	}
	if E, warn, _ := DefaultLinear().Modulus(7, 1); E != 6e9 || !strings.Contains(strings.Join(warn, " "), "cap") {
		t.Errorf("linear law at 7: %g Pa, warnings %q; want the cap", E, warn)
	}
	if _, warn, err := DefaultLinear().Modulus(1, 6); err != nil || !strings.Contains(strings.Join(warn, " "), "below the unstretched") {
		t.Errorf("uneven stretch: warnings %q (%v)", warn, err)
	}
	if _, _, err := (Linear{}).Modulus(2, 2); err == nil {
		t.Error("a law without coefficients answered")
	}
}

func TestStrength(t *testing.T) {
	y, u, warn, err := DefaultStrength().At(1)
	if err != nil || y != 55e6 || math.Abs(u-74.25e6) > 1 || warn != nil {
		t.Errorf("unstretched: yield %g, ultimate %g, %q, %v", y, u, warn, err)
	}
	y, _, _, err = DefaultStrength().At(4.3) // 55 * 4.3^0.6 = 55*2.3992
	if err != nil || math.Abs(y-131.96e6) > 0.1e6 {
		t.Errorf("yield at 4.3: %g Pa (%v), want 132e6", y, err)
	}
	if _, u, warn, _ := DefaultStrength().At(8); u != 250e6 || len(warn) != 2 {
		t.Errorf("at 8: ultimate %g Pa, warnings %q", u, warn)
	}
	if _, _, _, err := DefaultStrength().At(math.NaN()); err == nil {
		t.Error("NaN was accepted")
	}
	if _, _, _, err := (Strength{Yield: 1e6, Exponent: 1, Ultimate: 0.5, Cap: 1e9}).At(2); err == nil {
		t.Error("an ultimate strength below yield was accepted")
	}
}

func TestRelativeModulus(t *testing.T) {
	for _, c := range []struct {
		celsius float64
		heatSet bool
		want    float64
	}{
		{23, false, 1},
		{22, false, 1},
		{38, false, 0.93},
		{44, false, 0.89},
		{60, false, 0.75},
		{70, false, 0.50},
		{80, false, 0.15},
		{80, true, 0.50},
		{70, true, 0.625},
		{-10, true, 1},
	} {
		got, _, err := RelativeModulus(unit.Celsius(c.celsius), c.heatSet)
		if err != nil || math.Abs(got-c.want) > 1e-9 {
			t.Errorf("%g °C heat-set %v: %g (%v), want %g", c.celsius, c.heatSet, got, err, c.want)
		}
	}
	for _, c := range []float64{-11, 81, math.NaN()} {
		if _, _, err := RelativeModulus(unit.Celsius(c), false); err == nil {
			t.Errorf("%g °C was accepted", c)
		}
	}
	if _, warn, _ := RelativeModulus(unit.Celsius(4), false); len(warn) != 1 {
		t.Errorf("4 °C: warnings %q, want one", warn)
	}
}

func TestHeat(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := rapid.Float64Range(heatLow, heatHigh).Draw(t, "a")
		b := rapid.Float64Range(heatLow, heatHigh).Draw(t, "b")
		h, _, err := Enthalpy(unit.Temperature(a), unit.Temperature(b))
		if err != nil {
			t.Fatal(err)
		}
		// Midpoint sum of the heat capacity.
		const n = 2000
		sum := 0.0
		for i := range n {
			cp, err := HeatCapacity(unit.Temperature(a + (b-a)*(float64(i)+0.5)/n))
			if err != nil {
				t.Fatal(err)
			}
			sum += cp * (b - a) / n
		}
		if math.Abs(h-sum) > 1e-3*math.Abs(b-a)+100 {
			t.Fatalf("enthalpy %g J/kg, sum of cp %g", h, sum)
		}
	})
	for _, bad := range []float64{249, 601, math.NaN()} {
		if _, err := HeatCapacity(unit.Temperature(bad)); err == nil {
			t.Errorf("%g K was accepted", bad)
		}
	}
	if _, warn, _ := Enthalpy(unit.Celsius(20), unit.Celsius(140)); len(warn) != 1 {
		t.Errorf("20 to 140 °C: warnings %q, want one", warn)
	}
}

func TestDiffusivity(t *testing.T) {
	g, err := Find("pet-carbonated")
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct{ celsius, want float64 }{{40, 1.5e-7}, {95, 1.0e-7}} {
		got, err := g.Diffusivity(unit.Celsius(c.celsius))
		if err != nil || math.Abs(got-c.want) > 0.06e-7 {
			t.Errorf("%g °C: %g m²/s (%v), want %g", c.celsius, got, err, c.want)
		}
	}
	if _, err := g.Diffusivity(700); err == nil {
		t.Error("700 K was accepted")
	}
}

func TestOptics(t *testing.T) {
	for _, c := range []struct{ um, want float64 }{{0.58, 1.5755}, {1.75, 1.5415}, {3, 1.53}} {
		n, err := RefractiveIndex(c.um * 1e-6)
		if err != nil || math.Abs(n-c.want) > 1e-9 {
			t.Errorf("%g µm: %g (%v), want %g", c.um, n, err, c.want)
		}
	}
	if _, err := RefractiveIndex(5e-6); err == nil {
		t.Error("5 µm was accepted")
	}
	if r, err := Reflectance(1); err != nil || r != 0 {
		t.Errorf("index 1 reflects %g (%v)", r, err)
	}
	if _, err := Reflectance(0.5); err == nil {
		t.Error("index 0.5 was accepted")
	}
	if _, warn, _ := Birefringence(10e6); len(warn) != 1 {
		t.Errorf("10 MPa: warnings %q, want one", warn)
	}
	if _, _, err := Birefringence(math.NaN()); err == nil {
		t.Error("NaN was accepted")
	}
}

func TestChain(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		iv := rapid.Float64Range(ivLow+1e-6, ivHigh-1e-6).Draw(t, "iv")
		mn, err := NumberMass(iv)
		if err != nil {
			t.Fatal(err)
		}
		mw, err := WeightMass(iv)
		if err != nil {
			t.Fatal(err)
		}
		a, err1 := ViscosityFromNumber(mn)
		b, err2 := ViscosityFromWeight(mw)
		if err1 != nil || err2 != nil || math.Abs(a-iv) > 1e-12 || math.Abs(b-iv) > 1e-12 {
			t.Fatalf("%g came back as %g (%v) and %g (%v)", iv, a, err1, b, err2)
		}
		if h, err := Hydrolysis(iv, 0); err != nil || math.Abs(h-iv) > 1e-12 {
			t.Fatalf("dry melt: %g (%v), want %g", h, err, iv)
		}
	})
	for _, bad := range []float64{0, 0.5, 0.8, math.NaN(), math.Inf(1)} {
		if _, err := NumberMass(bad); err == nil {
			t.Errorf("IV %g m³/kg was accepted", bad)
		}
	}
	if _, err := Hydrolysis(0.08, 0.01); err == nil {
		t.Error("1 % of water was accepted")
	}
	if _, err := ViscosityFromNumber(-1); err == nil {
		t.Error("a molar mass of -1 was accepted")
	}
}

// 0.5 g/dL at a relative viscosity of 1.46: 0.25*(0.46+3*0.378436)/5.
func TestBillmeyer(t *testing.T) {
	iv, err := Billmeyer(1.46, 5)
	if err != nil || math.Abs(iv-0.0797655) > 1e-6 {
		t.Errorf("IV %g m³/kg (%v), want 0.07977", iv, err)
	}
	if iv, err := Billmeyer(1, 5); err != nil || iv != 0 {
		t.Errorf("solvent alone: %g (%v)", iv, err)
	}
	for _, bad := range [][2]float64{{0.9, 5}, {1.5, 0}, {math.NaN(), 5}, {1.5, math.NaN()}} {
		if _, err := Billmeyer(bad[0], bad[1]); err == nil {
			t.Errorf("%v was accepted", bad)
		}
	}
}

func TestBlend(t *testing.T) {
	iv, err := BlendViscosity([]Part{{0.75, 0.080}, {0.25, 0.072}})
	if err != nil || math.Abs(iv-0.078) > 1e-12 {
		t.Errorf("blend %g m³/kg (%v), want 0.078", iv, err)
	}
	for _, bad := range [][]Part{nil, {{0.5, 0.08}}, {{1.5, 0.08}, {-0.5, 0.08}}, {{1, 8}}} {
		if _, err := BlendViscosity(bad); err == nil {
			t.Errorf("%v was accepted", bad)
		}
	}
}

func TestRecycledWarnings(t *testing.T) {
	warn, err := RecycledWarnings(0, 0.080, 0.076)
	if err != nil || warn != nil {
		t.Errorf("no recycled resin: %q, %v", warn, err)
	}
	warn, err = RecycledWarnings(0.6, 0.074, 0.076)
	if err != nil || len(warn) != 4 || !strings.Contains(warn[3], "dL/g") {
		t.Errorf("60 %%: %q, %v; want four warnings, the last about viscosity", warn, err)
	}
	if _, err := RecycledWarnings(math.NaN(), 0.08, 0.076); err == nil {
		t.Error("share NaN was accepted")
	}
}
