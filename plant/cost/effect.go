package cost

import "sort"

// Effect is what the cost of 1000 bottles moves when one price goes to the
// ends of its range.
type Effect struct {
	Price     string  // key of the price
	Label     string  // of the price
	Low, High float64 // change of the amount per 1000 bottles
}

// Effects returns the effect of each price of the sheet, the largest first:
// the bars of a tornado chart.
func (s Sheet) Effects() []Effect {
	byKey := map[string]*Effect{}
	var out []*Effect
	for _, l := range s.Lines {
		if l.Rate.Key == "" {
			continue
		}
		e, ok := byKey[l.Rate.Key]
		if !ok {
			e = &Effect{Price: l.Rate.Key, Label: l.Rate.Label}
			byKey[l.Rate.Key] = e
			out = append(out, e)
		}
		e.Low += l.Low - l.Amount
		e.High += l.High - l.Amount
	}
	sort.SliceStable(out, func(i, j int) bool { return out[i].High-out[i].Low > out[j].High-out[j].Low })
	list := make([]Effect, 0, len(out))
	for _, e := range out {
		list = append(list, *e)
	}
	return list
}
