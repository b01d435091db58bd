package run

import (
	"math"
	"strings"
	"testing"

	"costrel/project/design"
)

// golden loads one of the two uneven designs. What is expected of them was
// worked out from their numbers with pen, paper and a short script that shares
// nothing with this program: the published equations, a bisection where an
// equation is implicit, straight pieces for the profile.
func golden(t testing.TB, name string) *design.Document {
	t.Helper()
	return document(t, "testdata", name)
}

// hand is a figure worked out by hand and how far, relative, ours may be off.
type hand struct {
	key  string
	want float64
	off  float64
}

// The tolerances. A number of pure arithmetic is written with six digits. The
// wall by hand is one thickness all over the panel, with
// m = π ρ H (R² - (R - t)²); ours follows the draw-down, whose ends of the
// section are not quite even. The growth of the bottle by hand takes the
// radius to the middle of the wall, which moves the hot pressure by 0.016 %.
const (
	exact    = 2e-5
	even     = 2e-4 // wall from a uniform panel
	pressure = 5e-4
)

// Geometry of golden-carbonated.yaml, straight pieces closed by a disc of 17 mm:
//
//	outside  V = Σ π h (r1² + r1 r2 + r2²) / 3               = 534.752 mL
//	         A = π 17² + Σ π (r1 + r2) √(Δr² + h²)            = 377.944 cm²
//	inside   the same pieces moved inward by 0.29 mm, mitred = 523.856 mL
//	bore     π 21.6² 16.8 / 4                                = 6.1561 mL
//	brimful  523.856 + 6.156                                 = 530.012 mL
//
// Preform, solid of revolution:
//
//	tube   π (14.2 + 3.15) 3.15 (68 - 14)                    = 9271.58 mm³
//	taper  frustum 10.25 to 9.2 on 14, less the bore of 7.1  = 1946.55 mm³
//	cap    2 π ((8.675 + 1.2)³ - (8.675 - 1.2)³) / 3         = 1142.07 mm³
//	m      1.333 mg/mm³ · 12360.19 mm³ + 3.9 g               = 20.3761 g
//
// Sections, scaled to the 16.4761 g below the finish by
// k = 16.4761 / (9.6 + 8.1 + 6.9 - 3.9) = 0.795949; the panel is 84 mm high
// with R = 32.5 mm, so t = R - √(R² - 6.44718e-3 / (1362 π 0.084)) = 0.277144 mm.
//
// Drink, 96 g/L: w ρ(20 °C, w) = 96 gives w = 0.0927427, ρ20 = 1035.122,
// ρ7 = 1037.492 kg/m³; 480 mL weigh 0.496859 kg with 0.450779 kg of water.
// 3.6 vol = 3.6 · 44.0095 / 22.263 = 7.11648 g/L, so 0.172186 mol per kg of
// water. Water activity 1 - 0.08 w = 0.992581.
//
// Ambient 101325 (1 - 0.0065 h / 288.15)^5.25588: 85 599 Pa at 1400 m, 97 773 Pa
// at 300 m.
//
// Closed pack. Growth 0.75 (32.361 / 0.277144) (2.5 - 0.72) / 3.9e9 = 3.997e-8 /Pa.
// At closing the liquid takes 480 · 1035.122 / 1037.492 = 478.904 mL and leaves
// 51.108 mL, of which 45 % is air: 0.45 (85 599 - 995) V / (R 280.15) = 0.835354 mmol.
// O2: 20.95 % of that and 0.4 mg/L, 0.18101 mmol; N2: the rest, 1.5 mg/L and 4 mg,
// 0.82885 mmol. Read at 22 °C the sealed pack stands at 526.434 kPa with
// 487.254 kPa of CO2 in 59.110 mL: 77.6176 mmol dissolved, 89.6803 mmol in all. Then
// at each temperature n = p (m_w s + V_g / (R T + B P)) for each gas, s of
// PlummerBusenberg1982 with fugacity and pressure factor, V_g growing with P
// and shrinking by 32.3 cm³ per mole taken up:
//
//	 7 °C, 1400 m  351.576 - 85.599 = 265.977 kPa
//	25 °C,  300 m  564.586 - 97.773 = 466.813 kPa
//	41 °C,  300 m  772.991 - 97.773 = 675.219 kPa
func TestGoldenCarbonated(t *testing.T) {
	r := Check(golden(t, "golden-carbonated.yaml"), nil)
	compare(t, r, []hand{
		{"bottle.height", 0.2088, exact}, // 192 + 16.8
		{"bottle.area", 377.94357e-4, exact},
		{"bottle.volume.brimful", 530.01207e-6, exact},
		{"bottle.volume.fill", 480e-6, exact},
		{"bottle.headspace", 50.01207e-6, exact}, // 530.012 - 480
		{"preform.mass", 20.376135e-3, exact},
		{"bottle.mass", 20.376135e-3, exact},
		{"preform.gate.ratio", 0.7619048, exact},       // 2.4 / 3.15
		{"section.shoulder.mass", 8.4369066e-3, exact}, // (9.6 - 3.9) k + 3.9
		{"section.panel.mass", 6.4471831e-3, exact},    // 8.1 k
		{"section.base.mass", 5.4920449e-3, exact},     // 6.9 k
		{"wall.panel.mean", 0.27714438e-3, even},       //
		{"preform.ratio.hoop.inner", 4.5384304, even},  // (65 - 2 · 0.277144) / 14.2
		{"preform.ratio.hoop.mid", 3.7304240, even},    // (65 - 0.277144) / (14.2 + 3.15)
		{"preform.ratio.hoop.outer", 3.1707317, exact}, // 65 / 20.5
		{"preform.ratio.planar", 11.123912, even},      // 3.15 · 1333 / (0.277144 · 1362)
		{"preform.ratio.axial", 2.9819430, even},       // 11.123912 / 3.730424
		{"pack.mass", 0.51983478, exact},               // 0.0203761 + 0.0026 + 1035.122 · 480e-6
		{"stack.load", 102.97058, exact},               // 1.7 · 9.80665 (0.5198348 (4 · 3 - 1) + 22 · 2 / 96)
		{"pack.pressure.fill", 265.97677e3, pressure},  //
		{"pack.pressure.store", 466.81338e3, pressure}, //
		{"pack.pressure.hot", 675.21884e3, pressure},   //
		{"pack.stress.hoop.store", 54.275178e6, 1e-3},  // 466 813 · 32.222856 / 0.277144
		{"pack.stress.hoop.hot", 78.505939e6, 1e-3},    // 675 219 · 32.222856 / 0.277144
		{"pack.stress.axial.store", 27.021385e6, 1e-3}, // 466 813 · 32.222856² / (2 · 32.361428 · 0.277144)
		{"closure.lift", 339.44974, pressure},          // 675 219 π 0.0253² / 4
		{"air.volume", 24.017326e-3, exact},            // (534.752 + 240) mL · 31
		{"air.volume.net", 18.733514e-3, exact},        // · (1 - 0.22)
		{"air.energy", 16185.756, exact},               // 18.7335e-3 · 0.24 · 3.6e6
		{"air.volume.strict", 21.637903e-3, 1e-4},      // ((V - 12.097 + 240) (3 100 000 + 85 599) - (240 + 11.64) 85 599) 273.15 / (101 325 · 300), 12.097 mL = 16.47613 g / 1.362
		{"air.energy.ideal", 7367.8369, exact},         // 18.7335e-3 · 101 325 (293.15 / 273.15) ln(3 185 599 / 85 599)
		{"oven.energy", 12455.958, exact},              // 16.47613e-3 · 0.21 · 3.6e6
		{"cost.resin", 27.915304, exact},               // 20.376135 · 1.37
		{"cost.air", 0.76432738, exact},                // 1000 · 16185.756 / 3.6e6 · 0.17
		{"cost.oven", 0.58819801, exact},               // 1000 · 12455.958 / 3.6e6 · 0.17
		{"cost.total", 58.336938, exact},               // (27.915304 + 8.3 + 6.7 + 0.764327 + 0.588198) / 0.97 + 5.6 + 3.1 + 240 000 / 60 000
		{"footprint.total", 42.863420, exact},          // (20.376135 (0.65 · 2.3 + 0.35 · 0.5) + 28641.714 / 3600 · 0.41) / 0.97 + 2.6 · 1.7
	})
	missing(t, r, "hotfill.contraction", "hotfill.vacuum", "hotfill.panel.need")
	// What crosses the wall has no closed form here: it must be possible.
	bounded(t, r, "wall.min", 0.05e-3, 0.2772e-3)
	bounded(t, r, "shelf.loss.end", 0.01, 0.6)
	bounded(t, r, "shelf.oxygen.end", 0, 50e-3)
	bounded(t, r, "shelf.water.end", 0, 0.05*0.48)
	bounded(t, r, "growth.volume.day1", 0, 0.1)
	bounded(t, r, "oven.heat", 90e3*16.476e-3, 170e3*16.476e-3) // 1.0 to 2.0 kJ/(kg·K) over 86 K
}

// On the open chart the drink keeps its content, so the pressure is what stands
// over 0.172186 mol/kg of water (mass basis): P = m / s + 0.992581 p_w.
//
//	 7 °C  299.207 -  85.599 = 213.608 kPa
//	25 °C  532.298 -  97.773 = 434.526 kPa
//	41 °C  791.056 -  97.773 = 693.283 kPa
//
// The chart of water holds 7.11648 g per kg of water, 0.161703 mol/kg.
func TestGoldenOpenChart(t *testing.T) {
	doc := golden(t, "golden-carbonated.yaml")
	doc.Design.Drink.Pack = "open"
	compare(t, Check(doc, nil), []hand{
		{"pack.pressure.fill", 213.60773e3, 1e-4}, {"pack.pressure.store", 434.5258e3, 1e-4}, {"pack.pressure.hot", 693.28347e3, 1e-4},
	})
	doc.Design.Drink.Basis = "chart"
	compare(t, Check(doc, nil), []hand{
		{"pack.pressure.fill", 195.06605e3, 1e-4}, {"pack.pressure.store", 401.27685e3, 1e-4}, {"pack.pressure.hot", 643.61687e3, 1e-4},
	})
}

// Geometry of golden-hotfill.yaml: the straight pieces less the spherical dome
// π 6 (3 · 23² + 6²) / 6 in volume, plus π (23² + 6²) in area: 546.923 mL,
// 381.548 cm². Set off by 0.36 mm and with π 21.5² 20.6 / 4 of bore: 540.764 mL.
//
// Preform: π (19.4 + 3.3) 3.3 · 71 = 16708.91 mm³, cap 2031.72 mm³, 1.334 mg/mm³
// and 5.4 g: 30.4 g. Sections by k = 25 / (28 - 5.4) = 1.106194.
//
// Drink, 130 g/L: w = 0.1240297, water activity 0.990078; ρ20 = 1048.136,
// ρ88 = 1014.681, ρ18 = 1048.648 kg/m³. Contraction 1 - 1014.681 / 1048.648.
// Ambient 90 970 Pa at 900 m, 100 129 Pa at 100 m.
//
// At closing 505 · 1048.136 / 1014.681 = 521.651 mL leave 19.1135 mL, in which 83 % of
// the room beside the steam (0.990078 p_w(79 °C) = 45 077 Pa) is air:
//
//	n = 0.83 (90 970 - 45 077) 19.1135e-6 / (R 352.15) + 5 mg / 28.0134 = 0.248661 + 0.178486 mmol
//
// At 18 °C the liquid takes 504.754 mL, p_w = 2044 Pa:
//
//	(P - 2044) (540.764 (1 - 0.013) - 0.9e-3 (100 129 - P) - 504.754) mL = n R 291.15
//
// P = 82 253 Pa, vacuum 17 877 Pa, panels 0.9 mL/kPa of that.
func TestGoldenHotFill(t *testing.T) {
	r := Check(golden(t, "golden-hotfill.yaml"), nil)
	compare(t, r, []hand{
		{"bottle.height", 0.2006, exact},
		{"bottle.area", 381.54784e-4, exact},
		{"bottle.volume.brimful", 540.76422e-6, exact},
		{"bottle.headspace", 35.764224e-6, 5e-5},
		{"preform.mass", 30.399996e-3, exact},
		{"section.shoulder.mass", 13.143361e-3, exact}, // (12.4 - 5.4) k + 5.4
		{"section.panel.mass", 9.5132727e-3, exact},    // 8.6 k
		{"section.base.mass", 7.7433615e-3, exact},     // 7 k
		{"wall.panel.mean", 0.46137407e-3, even},       // 33.5 - √(33.5² - 9513.27 / (1.37 π 72))
		{"preform.ratio.hoop.inner", 3.4060439, even},  // (67 - 0.922748) / 19.4
		{"preform.ratio.hoop.mid", 2.9312170, even},    // (67 - 0.461374) / 22.7
		{"preform.ratio.planar", 6.9645975, even},      // 3.3 · 1334 / (0.461374 · 1370)
		{"preform.ratio.axial", 2.3760088, even},       // 6.964598 / 2.931217
		{"hotfill.contraction", 0.032391613, exact},    //
		{"hotfill.vacuum", 17.87672e3, 2e-4},           //
		{"hotfill.panel.need", 16.089048e-6, 2e-4},     //
		{"pack.mass", 0.56300884, exact},               // 0.0304 + 0.0033 + 1048.136 · 505e-6
		{"stack.load", 100.16915, exact},               // 1.6 · 9.80665 (0.5630088 · 11 + 21 / 110)
		{"air.volume", 31.706147e-3, exact},            // (546.923 + 310) mL · 37
		{"air.energy", 20842.353, exact},               // · 0.83 · 0.22 · 3.6e6
		{"oven.energy", 17099.997, exact},              // 25e-3 · 0.19 · 3.6e6
		{"cost.total", 63.257716, exact},               // (30.4 · 1.2 + 9 + 6 + 37942.35 / 3600 · 0.14) / 0.976 + 5 + 4
		{"footprint.total", 77.016752, exact},          // (30.4 · 2.15 + 37942.35 / 3600 · 0.35) / 0.976 + 3.3 · 1.9
	})
	missing(t, r, "pack.pressure.fill", "pack.pressure.store", "pack.pressure.hot", "pack.stress.hoop.store", "closure.lift", "shelf.loss.end")
}

func compare(t *testing.T, r *Result, rows []hand) {
	t.Helper()
	for _, h := range rows {
		if got := value(t, r, h.key); math.Abs(got-h.want) > h.off*math.Abs(h.want) {
			t.Errorf("%s = %.8g, by hand %.8g: off by %.3g %%, more than %.2g %%", h.key, got, h.want, 100*(got/h.want-1), 100*h.off)
		}
	}
}

func bounded(t *testing.T, r *Result, key string, low, high float64) {
	t.Helper()
	if got := value(t, r, key); !(got > low && got < high) {
		t.Errorf("%s = %g outside %g..%g", key, got, low, high)
	}
}

// missing checks that figures which do not apply are left out with the reason.
func missing(t *testing.T, r *Result, keys ...string) {
	t.Helper()
	for _, key := range keys {
		for _, f := range r.Figures {
			if f.Key == key {
				t.Errorf("%s = %g of a pack to which it does not apply", key, f.Value)
			}
		}
		reason := ""
		for _, p := range r.Problems {
			if p.Key == key {
				reason = p.Reason
			}
		}
		if !strings.Contains(reason, "apply") {
			t.Errorf("%s is left out because %q", key, reason)
		}
	}
}
