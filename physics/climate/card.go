package climate

import (
	_ "embed"
	"fmt"

	"costrel/cite"
	"costrel/unit"
)

//go:embed cards.txt
var cardText string

var deck = cite.NewDeck("physics/climate/cards.txt", cardText)

// Cards returns the data cards of the lanes that come with the package.
func Cards() []cite.Card { return deck.Cards() }

// Named returns the lane of the card with the given name. The keys of a card
// are "1.temperature", "1.humidity", "1.duration" and, where they differ from
// zero, "1.daily", "1.daily.humidity", "1.season", "1.season.humidity",
// "1.altitude"; then those of segment 2 and so on.
func Named(name string) (Lane, error) {
	c, err := deck.Find(name)
	if err != nil {
		return Lane{}, fmt.Errorf("climate: no lane named %q", name)
	}
	return FromCard(c)
}

// FromCard returns the lane of a card; see [Named] for its keys. A daily peak
// falls at 15 h, a seasonal one half a year from the start: the lane begins in
// winter. A key of another form and a segment without temperature, humidity or
// duration are errors.
func FromCard(c cite.Card) (Lane, error) {
	l := Lane{Name: c.Title}
	used := 0
	start := 0.0
	for n := 1; ; n++ {
		found := 0
		get := func(key string, must bool) (float64, error) {
			d, ok := c.Get(fmt.Sprintf("%d.%s", n, key))
			if ok {
				found++
			} else if must {
				return 0, fmt.Errorf("climate: card %s: no %d.%s", c.Name, n, key)
			}
			return d.Value, nil
		}
		s := Segment{Name: fmt.Sprintf("%s %d", c.Name, n), Start: start}
		var err error
		var must [3]float64
		for i, key := range []string{"temperature", "humidity", "duration"} {
			v, e := get(key, true)
			if err == nil {
				err = e
			}
			must[i] = v
		}
		if found == 0 {
			break
		}
		if err != nil {
			return Lane{}, err
		}
		s.Temperature, s.Humidity, s.Duration = unit.Temperature(must[0]), must[1], must[2]
		var v [5]float64
		for i, key := range []string{"daily", "daily.humidity", "season", "season.humidity", "altitude"} {
			v[i], _ = get(key, false)
		}
		s.Daily = Cycle{Temperature: unit.TemperatureDiff(v[0]), Humidity: v[1]}
		s.Season = Cycle{Temperature: unit.TemperatureDiff(v[2]), Humidity: v[3]}
		if s.Daily != (Cycle{}) {
			s.Daily.Peak = 15 * 3600
		}
		if s.Season != (Cycle{}) {
			s.Season.Peak = Year / 2
		}
		s.Altitude = v[4]
		l.Segments = append(l.Segments, s)
		start += s.Duration
		used += found
	}
	if used != len(c.Data) {
		return Lane{}, fmt.Errorf("climate: card %s: %d of %d keys are of no segment", c.Name, len(c.Data)-used, len(c.Data))
	}
	return l, l.Validate()
}
