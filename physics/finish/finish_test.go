package finish

import (
	"math"
	"strings"
	"testing"

	"costrel/cite"
)

func TestAll(t *testing.T) {
	if got, want := strings.Join(Names(), " "), "28-tall-csd 28-short-csd 28-tall-hotfill 26-still-3start 29-25 30-25-low 30-25-high 38-3start-hotfill 28-400"; got != want {
		t.Errorf("names %q, want %q", got, want)
	}
	for _, f := range All() {
		// Every value stays within its own range of dimensions and the card
		// gives a mass that its geometry can explain.
		m, err := f.MassFromGeometry(1335)
		if err != nil {
			t.Errorf("%s: %v", f.Name, err)
		}
		if r := m / f.Mass; r < 0.7 || r > 1.3 {
			t.Errorf("%s: mass %.2f g, from geometry %.2f g", f.Name, f.Mass*1e3, m*1e3)
		}
		if f.Helix() <= 0 || f.Helix() > 8*math.Pi/180 {
			t.Errorf("%s: lead angle %.2f°", f.Name, f.Helix()*180/math.Pi)
		}
		if f.Lead() != f.Pitch*float64(f.Starts) || math.Abs(f.Lift(2*math.Pi)-f.Lead()) > 1e-15 {
			t.Errorf("%s: lead %g m", f.Name, f.Lead())
		}
	}
}

func TestNamesCarryNoStandard(t *testing.T) {
	for _, c := range Cards() {
		for _, word := range []string{"PCO", "ISBT", "BPF", "SPI"} {
			if strings.Contains(strings.ToUpper(c.Name+" "+c.Title), word) {
				t.Errorf("%s, %s: a standard's code stands as a name", c.Name, c.Title)
			}
		}
	}
}

func TestShortNeck(t *testing.T) {
	f, err := Find("28-short-csd")
	if err != nil {
		t.Fatal(err)
	}
	// By hand: (21.74+25.07)/4 = 11.7025 mm; pi/4 (25.07²-21.74²) = 122.43 mm²;
	// 4*1.82/(pi*25.8) = 0.0898; 4*1.82*1.6 = 11.648 mm².
	for _, c := range []struct {
		what      string
		got, want float64
	}{
		{"land radius", f.LandRadius(), 11.7025e-3},
		{"land area", f.LandArea(), 122.426e-6},
		{"vent share", f.VentShare(), 0.08982},
		{"vent area", f.VentArea(), 11.648e-6},
		{"mean thread", f.MeanThread(), 25.8e-3},
	} {
		if math.Abs(c.got/c.want-1) > 1e-4 {
			t.Errorf("%s %g, want %g", c.what, c.got, c.want)
		}
	}
	n, err := f.Engaged(133 * math.Pi / 180)
	if err != nil || math.Abs(n-517.0/360) > 1e-9 {
		t.Errorf("engaged after 133°: %g turns (%v), want %g", n, err, 517.0/360)
	}
	if n, _ := f.Engaged(100); n != 0 {
		t.Errorf("engaged after 100 rad: %g turns, want 0", n)
	}
	if _, err := f.Engaged(math.NaN()); err == nil {
		t.Error("angle NaN was accepted")
	}
	if low := f.LowConfidence(); len(low) != 0 {
		t.Errorf("low-confidence values %v in a card read from a drawing", low)
	}
	if _, err := Find("28-blue"); err == nil || !strings.Contains(err.Error(), "28-short-csd") {
		t.Errorf("unknown name: %v, want an error that lists the names", err)
	}
	if _, err := f.MassFromGeometry(math.NaN()); err == nil {
		t.Error("density NaN was accepted")
	}
}

func TestNewRefuses(t *testing.T) {
	change := func(key string, v float64) cite.Card {
		for _, c := range Cards() {
			if c.Name != "28-short-csd" {
				continue
			}
			for i := range c.Data {
				if c.Data[i].Key == key {
					c.Data[i].Value = v
				}
			}
			return c
		}
		t.Fatal("no card")
		return cite.Card{}
	}
	for key, v := range map[string]float64{
		"bore":       0.026,
		"seal_od":    0.030,
		"thread_od":  0.020,
		"neck_od":    0.050,
		"bead_depth": 0.020,
		"flank":      1.2,
		"vent_width": 0.030,
		"starts":     1.5,
		"vent_slots": 99,
		"mass":       0,
		"height":     math.NaN(),
		"travel":     math.Inf(1),
	} {
		if _, err := New(change(key, v)); err == nil {
			t.Errorf("%s = %g was accepted", key, v)
		}
	}
	if _, err := New(cite.Card{Name: "x"}); err == nil || !strings.Contains(err.Error(), "lacks") {
		t.Errorf("empty card: %v", err)
	}
	c := change("mass", 0.003)
	kept := c.Data[:0]
	for _, d := range c.Data {
		if d.Key != "bead_od" && d.Key != "vent_slots" {
			kept = append(kept, d)
		}
	}
	c.Data = kept
	if f, err := New(c); err != nil || f.BeadOD != 0 || f.VentSlots != 0 {
		t.Errorf("card without bead and vents: bead %g, slots %d, %v", f.BeadOD, f.VentSlots, err)
	}
}

// A card handed out is the caller's own.
func TestCardsAreCopies(t *testing.T) {
	Cards()[0].Data[0].Value = -1
	if got := Cards()[0].Data[0].Value; got < 0 {
		t.Errorf("embedded card changed to %g", got)
	}
}
