package design

import (
	"testing"

	"github.com/google/go-cmp/cmp"
)

func TestNearest(t *testing.T) {
	keys := []string{"pack.pressure.store", "pack.pressure.hot", "pack.stress.hoop.store", "pack.stress.hoop.hot", "pack.stress.axial.store", "wall.min"}
	for _, c := range []struct {
		word string
		n    int
		want []string
	}{
		{"pack.stres.hoop.store", 3, []string{"pack.stress.hoop.store"}},
		{"Wall.Mni", 3, []string{"wall.min"}},
		{"hoop", 3, []string{"pack.stress.hoop.hot", "pack.stress.hoop.store"}},
		{"hoop", 1, []string{"pack.stress.hoop.hot"}},
		{"hoop", 0, nil},
		{"zzz", 3, nil},
		{"", 3, nil},
	} {
		got := Nearest(c.word, keys, c.n)
		if len(got) == 0 && len(c.want) == 0 {
			continue
		}
		if diff := cmp.Diff(c.want, got); diff != "" {
			t.Errorf("%q, %d: %s", c.word, c.n, diff)
		}
	}
}
