package report

import (
	"math"
	"strconv"
	"strings"

	"costrel/project/design"
	"costrel/unit"
)

// Numbers are two values and their difference in full, for a sheet that goes on
// computing with them. What has no number is left out.
type Numbers struct {
	Unit       string   `json:"unit" doc:"Of both values, as the reader sees it; empty for a bare number"`
	Old        *float64 `json:"old,omitempty"`
	New        *float64 `json:"new,omitempty"`
	ChangeUnit string   `json:"change_unit" doc:"Of the difference: K for °C, points for %"`
	Change     *float64 `json:"change,omitempty" doc:"New less old; left out where no difference is counted"`
}

// numbersOf returns two SI values of a kind, NaN standing for none, in the unit
// named or else in that of the larger one. Differences says that the values are
// themselves differences, as margins are.
func numbersOf(k unit.Kind, symbol string, old, now float64, differences bool, sys unit.System, money string) Numbers {
	size := 0.0
	for _, v := range []float64{old, now} {
		if math.Abs(v) > size { // NaN is not
			size = math.Abs(v)
		}
	}
	ck := ChangeKind(k)
	csymbol := symbol
	if ck != k {
		csymbol = ""
	}
	csymbol = unitFor(ck, csymbol, size, sys)
	symbol = unitFor(k, symbol, size, sys)
	if differences {
		k, symbol = ck, csymbol
	}
	n := Numbers{Unit: currency(symbol, money), ChangeUnit: currency(csymbol, money), Old: bare(k, old, symbol), New: bare(k, now, symbol), Change: bare(ck, now-old, csymbol)}
	if k == unit.Fraction && csymbol == "%" {
		n.ChangeUnit = "points"
		if differences {
			n.Unit = "points"
		}
	}
	return n
}

// unitFor returns the unit in which [showIn] prints a value.
func unitFor(k unit.Kind, symbol string, si float64, sys unit.System) string {
	if symbol != "" {
		return symbol
	}
	if k == unit.Time {
		return timeUnit(si, sys)
	}
	return unit.Preferred(k, sys)
}

// bare returns an SI value in a unit with all digits that a sheet shows; nil
// for NaN.
func bare(k unit.Kind, si float64, symbol string) *float64 {
	text := strings.TrimSpace(strings.TrimSuffix(unit.Format(k, si, symbol, 15), symbol))
	v, err := strconv.ParseFloat(text, 64)
	if err != nil {
		return nil
	}
	return &v
}

// inputNumbers returns the numbers of a value of the design; nil for words,
// switches and whole tables.
func inputNumbers(was, now design.Listed) *Numbers {
	value := func(l design.Listed) float64 {
		if v, ok := l.Value.(float64); ok {
			return v
		}
		return math.NaN()
	}
	old, is := value(was), value(now)
	if now.Quantity == "" || now.Unit == "" || math.IsNaN(old) && math.IsNaN(is) {
		return nil
	}
	n := Numbers{Unit: now.Unit, Old: bare(now.Quantity, old, now.Unit), New: bare(now.Quantity, is, now.Unit)}
	return &n
}
