package design

import (
	"testing"
)

// TestLaneHumidity: a humidity of 0 % that is written stays, one that is not
// written is absent, in a table as in a list.
func TestLaneHumidity(t *testing.T) {
	head := minimal("csd-1500") + "climate:\n  lane:\n"
	for name, lane := range map[string]string{
		"table": "    columns: [duration, temperature, humidity %]\n    rows:\n      - [30 weeks, 20 °C, 0]\n      - [30 weeks, 20 °C, ~]\n      - [30 weeks, 20 °C]\n      - [30 weeks, 20 °C, 40]\n",
		"list":  "    - {duration: 30 weeks, temperature: 20 °C, humidity: 0 %}\n    - {duration: 30 weeks, temperature: 20 °C, humidity: ~}\n    - {duration: 30 weeks, temperature: 20 °C}\n    - {duration: 30 weeks, temperature: 20 °C, humidity: 40 %}\n",
	} {
		doc, err := Load("", head+lane)
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		c := doc.Design.Clone()
		for i, want := range []float64{0, -1, -1, 0.4} {
			got := -1.0
			if h := c.Climate.Lane[i].Humidity; h != nil {
				got = *h
			}
			if got != want {
				t.Errorf("%s: row %d: humidity %g, want %g (-1: not written)", name, i, got, want)
			}
		}
		if *c.Climate.Lane[0].Humidity = 1; *doc.Design.Climate.Lane[0].Humidity != 0 {
			t.Error("a clone shares the lane")
		}
		text, err := Set(head+lane, "climate.lane[0].humidity", "5 %")
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		if again, err := Load("", text); err != nil || *again.Design.Climate.Lane[0].Humidity != 0.05 {
			t.Errorf("%s: set: %v\n%s", name, err, text)
		}
	}
	_, rows := loaded(t, head+"    columns: [duration, temperature, humidity %]\n    rows:\n      - [30 weeks, 20 °C, 0]\n      - [30 weeks, 20 °C, ~]\n").written("climate.lane")
	if rows[0][4] != "0" || rows[1][4] != "" {
		t.Errorf("written again: %q", rows)
	}
}

func loaded(t *testing.T, text string) *Document {
	t.Helper()
	doc, err := Load("", text)
	if err != nil {
		t.Fatal(err)
	}
	return doc
}
