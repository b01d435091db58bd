package design

import (
	"strings"
	"testing"
)

// TestRecordFaults: every fault of a record at once, with its place.
func TestRecordFaults(t *testing.T) {
	head := minimal("hotfill-500") + "hotfill:\n  record:\n    columns: [time min, temperature °C]\n    rows:\n"
	for text, want := range map[string][]string{
		"      - [0, 85]\n": {"hotfill.record: ", "two readings or more"},
		"      - [0, 85]\n      - [5, 80]\n      - [5, 70]\n": {"hotfill.record[2].time", "the reading before"},
		"      - [0, 85]\n      - [5, 180]\n":                 {"hotfill.record[1].temperature", "150 °C"},
		"      - [0, 85]\n      - [5, 80,5]\n":                {"a decimal comma makes two of one"},
	} {
		_, err := Load("d.yaml", head+text)
		if err == nil {
			t.Errorf("%q is read", text)
			continue
		}
		for _, w := range want {
			if !strings.Contains(err.Error(), w) {
				t.Errorf("%q: no %q in %v", text, w, err)
			}
		}
	}
	doc, err := Load("d.yaml", head+"      - [0, 85]\n      - [5, \"80\"]\n")
	if err != nil || len(doc.Design.HotFill.Record) != 2 || doc.Design.HotFill.Record[1].Time != 300 {
		t.Errorf("%v", err)
	}
}

// TestPullsOfAStillDrink are doubtful and said so.
func TestPullsOfAStillDrink(t *testing.T) {
	doc := loaded(t, minimal("still-500")+"lab:\n  pulls:\n    - {time: 1 week, carbonation: 3 vol}\n")
	for _, w := range doc.Warnings {
		if w.Path == "lab.pulls" && strings.Contains(w.Message, "not carbonated") {
			return
		}
	}
	t.Errorf("no warning: %v", doc.Warnings)
}
