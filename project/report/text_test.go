package report

import (
	"slices"
	"testing"
)

// TestLeftOutStandsTogether: figures that are left out for one reason stand in one
// line, a key once.
func TestLeftOutStandsTogether(t *testing.T) {
	b := Board{Problems: []Problem{{Key: "a", Reason: "x"}, {Key: "b", Reason: "y"}, {Key: "a", Reason: "x"}, {Key: "c", Reason: "x"}, {Key: "d", Reason: "x"}, {Key: "e", Reason: "x"}, {Key: "f", Reason: "x"}}}
	want := []string{"a, c, d, and 2 more: x", "b: y"}
	if got := b.leftOut(); !slices.Equal(got, want) {
		t.Errorf("%q, want %q", got, want)
	}
}
