package run

import (
	"costrel/figure"
	"costrel/project/design"
)

// given returns an input read from the design, with its mark left to the
// document that knows it.
func given(d *design.Design, symbol, path string) figure.Input {
	it, _ := design.Lookup(path)
	v, kind, ok := d.Number(path)
	if !ok {
		return figure.Input{Key: "design:" + path, Symbol: symbol, Label: it.Field.Label}
	}
	return figure.Input{Key: "design:" + path, Symbol: symbol, Label: it.Section + ": " + it.Field.Label, Value: v, Kind: kind, Origin: figure.Given}
}

// input returns an earlier figure as an input.
func (c *pass) input(symbol, key string) figure.Input {
	f, ok := c.value(key)
	if !ok {
		for _, g := range c.figures {
			if g.Key == key {
				f, ok = g, true
			}
		}
	}
	if !ok {
		e, _ := figure.Find(key)
		return figure.Input{Key: key, Symbol: symbol, Label: e.Label, Kind: e.Kind}
	}
	return figure.Input{Key: key, Symbol: symbol, Label: f.Label, Value: f.Value, Kind: f.Kind, Origin: f.Origin.Kind}
}

// given returns an input of the design at work.
func (c *pass) given(symbol, path string) figure.Input { return given(c.d, symbol, path) }
