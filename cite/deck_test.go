package cite

import (
	"errors"
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"
)

func TestDeck(t *testing.T) {
	d := NewDeck("physics/closure/cards.txt", goodCards)
	if diff := cmp.Diff(MustCards("", goodCards), d.Cards()); diff != "" {
		t.Error(diff)
	}
	if diff := cmp.Diff([]string{"plain", "second"}, d.Names()); diff != "" {
		t.Error(diff)
	}
	c, err := d.Find("second")
	if err != nil || c.Value("mass") != 0.003 || d.Card("second").Value("mass") != 0.003 || d.ByName()["second"].Value("mass") != 0.003 {
		t.Errorf("%+v, %v", c, err)
	}
	c, err = d.Find("x")
	if want := `closure: no card "x"; there are plain, second`; err == nil || err.Error() != want || c.Data != nil {
		t.Errorf("%+v, %v; want %s", c, err, want)
	}
	if v := d.Datum("plain", "starts"); v.Value != 3 || v.Confidence != "high" {
		t.Errorf("%+v", v)
	}
	for _, k := range [][2]string{{"plain", "colour"}, {"x", "mass"}} {
		if _, ok := d.Get(k[0], k[1]); ok {
			t.Errorf("Get finds %v", k)
		}
		if !panics(func() { d.Datum(k[0], k[1]) }) {
			t.Errorf("Datum invents %v", k)
		}
	}
	if !panics(func() { d.Card("x") }) {
		t.Error("Card invents a card")
	}
}

// A caller may do with its copies what it likes.
func TestDeckHandsOutCopies(t *testing.T) {
	d := NewDeck("a/cards.txt", goodCards)
	found, _ := d.Find("plain")
	for _, c := range []Card{d.Cards()[0], found, d.Card("plain"), d.ByName()["plain"]} {
		c.Data[0].Value = -1
	}
	d.Names()[0] = "changed"
	d.Cards()[0] = Card{}
	if diff := cmp.Diff(MustCards("", goodCards), d.Cards()); diff != "" {
		t.Error(diff)
	}
	if d.Names()[0] != "plain" {
		t.Error("Names hands out its own list")
	}
}

func TestDeckReadsOnceWhenAsked(t *testing.T) {
	bad := NewDeck("a/cards.txt", "x") // no panic here
	if !panics(func() { bad.Names() }) {
		t.Error("a fault is swallowed")
	}
	runs := 0
	d := NewDeck("a/cards.txt", goodCards, func(c []Card) []Card { runs++; return c[1:] }, func(c []Card) []Card { return append(c, Card{Name: "last"}) })
	if runs != 0 {
		t.Error("read before it was asked")
	}
	if got := d.Names(); !slices.Equal(got, []string{"second", "last"}) {
		t.Error(got)
	}
	if _, err := d.Find("plain"); err == nil {
		t.Error("finds a card that was dropped")
	}
	if d.Cards(); runs != 1 {
		t.Errorf("read %d times", runs)
	}
}

func TestEach(t *testing.T) {
	d := NewDeck("a/cards.txt", goodCards)
	if got := Each(d, func(c Card) (string, error) { return c.Name + "!", nil }); !slices.Equal(got, []string{"plain!", "second!"}) {
		t.Error(got)
	}
	if !panics(func() { Each(d, func(Card) (int, error) { return 0, errors.New("no") }) }) {
		t.Error("Each swallows an error")
	}
}

func TestLowConfidence(t *testing.T) {
	if got := MustCards("", goodCards)[0].LowConfidence(); !slices.Equal(got, []string{"fill"}) {
		t.Error(got)
	}
	if got := MustCards("", goodCards)[1].LowConfidence(); got != nil {
		t.Error(got)
	}
}
