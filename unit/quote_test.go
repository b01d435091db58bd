package unit

import "testing"

func TestSpell(t *testing.T) {
	text := "gives way at z = " + Quote(Length, 0.0508, 3) + " under " + Quote(Force, 88.96443, 3) + ", last good load " + Quote(PressureGauge, 6894.757, 2) + ", vacuum " + Quote(PressureChange, 3386.389, 3, "kPa", "inHg")
	for s, want := range map[System]string{
		EU: "gives way at z = 50.8 mm under 89 N, last good load 0.069 bar(g), vacuum 3.39 kPa",
		US: "gives way at z = 2 in under 20 lbf, last good load 1 psi(g), vacuum 1 inHg",
	} {
		if got := Spell(text, s); got != want {
			t.Errorf("%s: %q, want %q", s, got, want)
		}
	}
	for _, same := range []string{"", "‹a|b|c›", "‹1|3|no such kind›", "‹1|3|count›", "a ‹ and a ›"} {
		if got := Spell(same, US); got != same {
			t.Errorf("%q became %q", same, got)
		}
	}
}

// TestSpellWritten holds that a number marked with its unit keeps its words for
// the EU and is converted for the US.
func TestSpellWritten(t *testing.T) {
	for _, c := range [][3]string{
		{"at ‹23 °C›", "at 23 °C", "at 73.4 °F"},
		{"± ‹0.50 mm›, up to ‹-12.7 mm›", "± 0.50 mm, up to -12.7 mm", "± 0.0197 in, up to -0.5 in"},
		{"‹4 mm› of wall", "4 mm of wall", "0.16 in of wall"},
		{"‹0..100 °C›, ‹3 to 6 mm›, ‹0.6 .. 1.3 GPa›", "0..100 °C, 3 to 6 mm, 0.6 .. 1.3 GPa", "32..212 °F, 0.12 to 0.24 in, 87000 .. 189000 psi"},
		{"‹1.2, 3.4 and 5 mm›", "1.2, 3.4 and 5 mm", "0.0472, 0.134 and 0.2 in"},
		{"from ‹2 m›, at ‹-500..11000 m›", "from 2 m, at -500..11000 m", "from 6.6 ft, at -1640..36089 ft"},
		{"± ‹2 K›", "± 2 K", "± 3.6 °F"},
		{"‹40 bar›, ‹1.01325 bar(a)›, ‹1 kPa(a)›", "40 bar, 1.01325 bar(a), 1 kPa(a)", "580 psi, 14.6959 psi(a), 0.15 psi(a)"},
		{"‹100 N›, ‹10 MPa›, ‹29.5735 mL›, ‹1 mL/bar›", "100 N, 10 MPa, 29.5735 mL, 1 mL/bar", "22.48 lbf, 1450 psi, 0.999999 fl oz, 0.0023 fl oz/psi"},
		{"‹1e+03 mm/s›", "1e+03 mm/s", "39 in/s"},
		{"‹38.5 g›, ‹1.34 g/cm³›, ‹7 furlongs›, ‹0.3 ›", "38.5 g, 1.34 g/cm³, 7 furlongs, 0.3", "38.5 g, 1.34 g/cm³, 7 furlongs, 0.3"},
		{"‹NaN mm›, ‹+Inf bar›, ‹x›", "NaN mm, +Inf bar, ‹x›", "NaN in, +Inf psi, ‹x›"},
	} {
		for s, want := range map[System]string{EU: c[1], US: c[2]} {
			if got := Spell(c[0], s); got != want {
				t.Errorf("%s: %q, want %q", s, got, want)
			}
		}
	}
}
