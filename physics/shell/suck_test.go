package shell

import "testing"

// Strides through a limit come to an end below ambient, too: there a share of the
// pressure is no lower end for them. With one iteration allowed none is ever found.
func TestThroughEndsUnderVacuum(t *testing.T) {
	b := demo(0.3e-3)
	p, err := b.prepare(1)
	if err != nil {
		t.Fatal(err)
	}
	m, err := NewModel(p.mesh, Case{Face: Inner, Hard: p.hard, Supports: p.onRing(false, 0, 0)})
	if err != nil {
		t.Fatal(err)
	}
	if err := m.solve(step{pressure: -2e3}); err != nil {
		t.Fatal(err)
	}
	if err := m.through(step{pressure: -1e3, most: 1}, 250); err == nil && m.p != -1e3 {
		t.Errorf("ends at %g Pa without a word", m.p)
	}
}
