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
