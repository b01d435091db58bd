package unit

import (
	"math"
	"strings"
	"testing"
)

// Every kind in every unit of it: the text is its own canonical form, both bases
// show the kind in that unit, and what is printed in it is read back.
func TestEveryChoice(t *testing.T) {
	seen := map[Kind]bool{}
	for _, p := range Preferences() {
		seen[p.Kind] = true
		for _, c := range p.Choices {
			for _, base := range []System{EU, US} {
				text := string(base) + "," + p.Key + "=" + c.Unit
				s, err := ParseSystem(text)
				if err != nil || string(s) != text || s.Base() != base {
					t.Fatalf("%s: %q, %v", text, s, err)
				}
				loose, err := ParseSystem(" " + strings.ToUpper(string(base)) + " , " + strings.ToUpper(strings.ReplaceAll(p.Key, "-", " ")) + " = " + c.Unit + " ")
				if err != nil || loose != s {
					t.Fatalf("%s written loosely: %q, %v", text, loose, err)
				}
				for k, symbol := range c.Shows {
					if got := Preferred(k, s); got != symbol {
						t.Errorf("%s: %s in %q, not %q", text, k, got, symbol)
					}
					if k == Wall || k == Vacuum {
						continue
					}
					const si = 321.5
					printed := Show(k, si, s)
					if !strings.HasSuffix(printed, symbol) {
						t.Errorf("%s: %s prints %s", text, k, printed)
					}
					v, err := Parse(k, Format(k, si, Preferred(k, s), 0))
					if err != nil || math.Abs(v.SI-si) > 1e-12*si {
						t.Errorf("%s: %s: %v comes back as %v, %v", text, k, si, v.SI, err)
					}
				}
				for _, k := range Kinds() {
					if _, moved := c.Shows[k]; !moved && Preferred(k, s) != Preferred(k, base) {
						t.Errorf("%s moves %s", text, k)
					}
				}
			}
		}
	}
	for _, k := range Kinds() {
		if !seen[k] && !isBare(k) {
			t.Errorf("no unit can be chosen for %s", k)
		}
	}
}

func TestFamilies(t *testing.T) {
	for _, x := range []struct {
		system System
		kind   Kind
		want   string
	}{
		{"us,pressure=bar", PressureGauge, "bar(g)"},
		{"us,pressure=bar", PressureAbs, "bar(a)"},
		{"us,pressure=bar", PressureChange, "bar"},
		{"us,pressure=bar", Vacuum, "kPa"},
		{"us,pressure=bar", Stress, "psi"},
		{"us,pressure=atm", PressureAbs, "atm"},
		{"us,pressure=bar,vacuum=mbar", Vacuum, "mbar"},
		{"us,pressure=bar,absolute-pressure=kPa(a)", PressureAbs, "kPa(a)"},
		{"eu,pressure=psi", Vacuum, "inHg"},
		{"us,temperature=°C", TemperatureChange, "K"},
		{"eu,temperature=°F", TemperatureChange, "°F"},
		{"us,length=mm", Wall, "mm"},
		{"us,length=cm", Wall, "mm"},
		{"eu,length=in", Wall, "mil"},
		{"us,wall=µm", Length, "in"},
		{"us", Wall, "mil"},
		{"eu", Vacuum, "kPa"},
	} {
		if s, err := ParseSystem(string(x.system)); err != nil || Preferred(x.kind, s) != x.want {
			t.Errorf("%s: %s in %s, want %s (%v)", x.system, x.kind, Preferred(x.kind, s), x.want, err)
		}
	}
}

func TestShown(t *testing.T) {
	for _, x := range []struct {
		kind   Kind
		eu, us string
		system System
		want   string
	}{
		{Force, "kN", "tonf(US)", US, "tonf(US)"},
		{Force, "kN", "tonf(US)", "us,force=N", "kN"},
		{Force, "kN", "tonf(US)", "eu,force=lbf", "tonf(US)"},
		{Time, "weeks", "weeks", "eu,time=d", "d"},
		{Time, "s", "s", "eu,time=d", "s"},
		{Time, "ms", "ms", "eu,time=s", "ms"},
		{Length, "", "mil", "us,length=mm", "mm"},
		{Length, "", "mil", "eu", "mm"},
		{Length, "m", "ft", "us,length=mm", "m"},
		{Length, "m", "ft", "eu,length=in", "ft"},
		{Mass, "", "lb", "us,mass=g", ""},
		{Mass, "", "lb", "eu,mass=oz", "oz"},
		{NormalVolume, "NL", "scf", "us,normal-volume=Nm³", "NL"},
		{PressureChange, "kPa", "inHg", "us,pressure=bar", "kPa"},
		{PressureChange, "kPa", "inHg", "us,vacuum=mbar", "mbar"},
	} {
		if got := Shown(x.kind, x.eu, x.us, x.system); got != x.want {
			t.Errorf("%s %s|%s under %s in %q, want %q", x.kind, x.eu, x.us, x.system, got, x.want)
		}
	}
}

func TestSpellChosen(t *testing.T) {
	const text = "wall ‹0.3 mm› at ‹10 bar›, ‹40 °C›; " + "‹120 m› up, " + "vacuum ‹12 kPa›"
	for system, want := range map[System]string{
		EU:                                "wall 0.3 mm at 10 bar, 40 °C; 120 m up, vacuum 12 kPa",
		"us,pressure=bar":                 "wall 0.012 in at 10 bar, 104 °F; 393.7 ft up, vacuum 12 kPa",
		"us,length=mm":                    "wall 0.3 mm at 145 psi, 104 °F; 120 m up, vacuum 3.54 inHg",
		"eu,temperature=°F,pressure=mbar": "wall 0.3 mm at 10000 mbar, 104 °F; 120 m up, vacuum 120 mbar",
	} {
		if got := Spell(text, system); got != want {
			t.Errorf("%s:\n%s\nwant\n%s", system, got, want)
		}
	}
	if got := Spell(Quote(Mass, 0.0283495, 3), "eu,mass=oz"); got != "1 oz" {
		t.Error(got)
	}
	if got := Spell("a ‹28.35 g› preform", "us,mass=oz"); got != "a 1 oz preform" {
		t.Error(got)
	}
}

func TestSystemFaults(t *testing.T) {
	_, err := ParseSystem("metric,pressure=furlong,colour=red,length,mass=g,mass=oz,count=1")
	if err == nil {
		t.Fatal("taken")
	}
	for _, want := range []string{`"metric"`, "eu or us", `pressure: "furlong"`, "mbar", `"colour"`, "vacuum", `"length" is no choice`, "mass stands twice", `"count"`} {
		if !strings.Contains(err.Error(), want) {
			t.Errorf("the faults do not say %s:\n%v", want, err)
		}
	}
	for text, want := range map[string]System{
		"us,length=mm,pressure=bar": "us,length=mm,pressure=bar",
		"us,pressure=bar,length=MM": "us,length=mm,pressure=bar",
		"US,pressure=bar(g)":        "us,pressure=bar",
		"eu,volume=US fl oz":        "eu,volume=fl oz",
	} {
		if got, err := ParseSystem(text); err != nil || got != want {
			t.Errorf("%s: %q, %v", text, got, err)
		}
	}
	for _, text := range []string{"", ",", "us,", "us,pressure=", "us,pressure=GPa", "us,mass=USD", "us,price-per-mass=USD/kg", strings.Repeat("us,", 2000)} {
		if s, err := ParseSystem(text); err == nil {
			t.Errorf("%q is read as %q", text, s)
		}
	}
}

func FuzzSystem(f *testing.F) {
	f.Add("us,pressure=bar")
	f.Add("eu,length=mil,wall=µm")
	f.Fuzz(func(t *testing.T, text string) {
		s, err := ParseSystem(text)
		if err != nil {
			return
		}
		if again, err := ParseSystem(string(s)); err != nil || again != s {
			t.Fatalf("%q: %q, then %q, %v", text, s, again, err)
		}
		for _, k := range Kinds() {
			if _, ok := Find(k, Preferred(k, s)); !ok {
				t.Fatalf("%q: %s has no unit", text, k)
			}
		}
	})
}
