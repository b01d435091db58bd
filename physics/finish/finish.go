package finish

import (
	_ "embed"
	"fmt"
	"math"
	"slices"

	"costrel/cite"
)

//go:embed cards.txt
var cardsText string

var deck = cite.NewDeck("physics/finish/cards.txt", cardsText)

// Cards returns the data cards of the neck finishes.
func Cards() []cite.Card { return deck.Cards() }

// Finish is one neck finish. Lengths in m, angles in rad, mass in kg; ranges
// and sources are in Card. A zero bead, relief or vent is unknown or absent.
type Finish struct {
	Name, Title string
	Card        cite.Card

	ThreadOD float64 // T
	Root     float64 // E
	Bore     float64 // I
	LipOD    float64
	SealOD   float64 // outer edge of the seal land
	Pitch    float64
	Starts   int
	Travel   float64 // angle from first engagement to seated, one start
	Flank    float64 // loaded flank, from the plane across the axis
	Height   float64 // seal surface to top of the ledge

	BeadOD, BeadDepth       float64 // tamper bead; depth below the seal surface
	ReliefOD                float64 // below the bead
	LedgeOD, LedgeThickness float64 // support ledge; thickness at the edge
	NeckOD                  float64 // below the ledge
	VentSlots               int     // slots across the thread
	VentWidth               float64 // of one slot

	Mass float64
}

// All returns the neck finishes.
func All() []Finish { return cite.Each(deck, New) }

// Names returns the names of the neck finishes.
func Names() []string { return deck.Names() }

// Find returns the neck finish with the given name ("28-short-csd"). The error
// lists the names there are.
func Find(name string) (Finish, error) {
	c, err := deck.Find(name)
	if err != nil {
		return Finish{}, err
	}
	return New(c)
}

// optional keys may be missing from a card.
var optional = []string{"bead_od", "bead_depth", "relief_od", "vent_slots", "vent_width"}

// New reads a finish from a card, which may be an embedded one or one whose
// values the user changed. It refuses a card that lacks a value and dimensions
// that do not nest: bore < seal <= lip, bore < root < thread < ledge, and a
// bead within the height.
func New(c cite.Card) (Finish, error) {
	f := Finish{Name: c.Name, Title: c.Title, Card: c}
	var starts, slots float64
	for _, v := range []struct {
		key string
		to  *float64
	}{
		{"thread_od", &f.ThreadOD},
		{"thread_root", &f.Root},
		{"bore", &f.Bore},
		{"lip_od", &f.LipOD},
		{"seal_od", &f.SealOD},
		{"pitch", &f.Pitch},
		{"starts", &starts},
		{"travel", &f.Travel},
		{"flank", &f.Flank},
		{"height", &f.Height},
		{"bead_od", &f.BeadOD},
		{"bead_depth", &f.BeadDepth},
		{"relief_od", &f.ReliefOD},
		{"ledge_od", &f.LedgeOD},
		{"ledge_thickness", &f.LedgeThickness},
		{"neck_od", &f.NeckOD},
		{"vent_slots", &slots},
		{"vent_width", &f.VentWidth},
		{"mass", &f.Mass},
	} {
		d, ok := c.Get(v.key)
		may := slices.Contains(optional, v.key)
		switch {
		case !ok && may:
			continue
		case !ok:
			return Finish{}, fmt.Errorf("finish: card %s lacks %s", c.Name, v.key)
		case !(d.Value > 0 || may && d.Value == 0) || math.IsInf(d.Value, 0):
			return Finish{}, fmt.Errorf("finish: card %s: %s = %g: want a finite value above 0", c.Name, v.key, d.Value)
		}
		*v.to = d.Value
	}
	for _, n := range []float64{starts, slots} {
		if n != math.Trunc(n) || n > 24 {
			return Finish{}, fmt.Errorf("finish: card %s: %g starts or slots: want a whole number up to 24", c.Name, n)
		}
	}
	f.Starts, f.VentSlots = int(starts), int(slots)
	if err := f.check(); err != nil {
		return Finish{}, err
	}
	return f, nil
}

func (f Finish) check() error {
	fail := func(format string, args ...any) error {
		return fmt.Errorf("finish: %s: %s", f.Name, fmt.Sprintf(format, args...))
	}
	switch {
	case f.Bore >= f.SealOD || f.SealOD > f.LipOD:
		return fail("want bore < seal <= lip, have ‹%.2f, %.2f, %.2f mm›", f.Bore*1e3, f.SealOD*1e3, f.LipOD*1e3)
	case f.Bore >= f.Root || f.Root >= f.ThreadOD || f.ThreadOD >= f.LedgeOD:
		return fail("want bore < root < thread < ledge, have ‹%.2f, %.2f, %.2f, %.2f mm›", f.Bore*1e3, f.Root*1e3, f.ThreadOD*1e3, f.LedgeOD*1e3)
	case f.NeckOD <= f.Bore || f.NeckOD >= f.LedgeOD:
		return fail("neck ‹%.2f mm› not between bore %.2f and ledge ‹%.2f mm›", f.NeckOD*1e3, f.Bore*1e3, f.LedgeOD*1e3)
	case f.BeadDepth >= f.Height:
		return fail("bead ‹%.2f mm› below the seal surface lies outside the height ‹%.2f mm›", f.BeadDepth*1e3, f.Height*1e3)
	case f.Flank >= math.Pi/3:
		return fail("flank %.1f° not below 60°", f.Flank*180/math.Pi)
	case float64(f.VentSlots)*f.VentWidth >= math.Pi*f.MeanThread():
		return fail("%d vent slots of ‹%.2f mm› leave no thread", f.VentSlots, f.VentWidth*1e3)
	}
	return nil
}

// LowConfidence returns the keys of the card whose values are marked with low
// confidence.
func (f Finish) LowConfidence() []string { return f.Card.LowConfidence() }
