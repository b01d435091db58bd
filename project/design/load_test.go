package design

import "testing"

func minimal(class string) string { return "schema: 1\nname: Test\nclass: " + class + "\n" }

// Each template is a usable design as it stands.
func TestTemplatesLoad(t *testing.T) {
	for _, class := range Classes() {
		doc, err := Load(class+".yaml", minimal(class))
		if err != nil {
			t.Errorf("%s:\n%v", class, err)
			continue
		}
		for _, w := range doc.Warnings {
			t.Errorf("%s warns: %v", class, w)
		}
		for _, it := range Walk() {
			if m := doc.MarkOf(it.Path); m.Kind == "" {
				t.Errorf("%s: %s has no mark", class, it.Path)
			}
		}
	}
}
