package run

import (
	"costrel/physics/climate"
	"costrel/physics/drink"
	"costrel/physics/hotfill"
	"costrel/project/design"
	"costrel/unit"
)

var hotfillStage = stage{
	name: "hotfill", sampled: true,
	needs: []string{"bottle"},
	also: func(d *design.Design, w work) []string {
		if !hotFilled(d) {
			return nil
		}
		return append(panelStages(d, w), "wall") // that grows under pressure
	},
	reads: func(d *design.Design) any {
		return []any{d.Brief.Product, d.Brief.Nominal, d.Drink, d.HotFill, d.Climate.AltitudeFill, d.Climate.AltitudeSale, d.Shelf.Material, d.Shelf.ShapeShare}
	},
	keys: []string{
		"hotfill.contraction", "hotfill.vacuum", "hotfill.vacuum.settled", "hotfill.pressure", "hotfill.pressure.closing", "hotfill.budget.drink", "hotfill.budget.gas",
		"hotfill.budget.nitrogen", "hotfill.budget.shrinkage", "hotfill.panel.need", "hotfill.panel.need.settled", "pasteur.units", "pasteur.f93",
	},
	run: func(c *pass) (any, error) {
		if !hotFilled(c.d) {
			if len(c.d.HotFill.Record) > 0 {
				c.pasteur() // a pack pasteurised closed, by its record
			}
			return nil, skip("the pack is not hot-filled")
		}
		c.pasteur() // asks nothing of the bottle
		h, err := c.hotPack()
		if err != nil {
			return nil, err
		}
		st, err := hotfill.Cool(h.pack, h.store)
		if err != nil {
			return nil, err
		}
		h.vacuum(st)
		h.overpressure(st)
		h.settled()
		h.budget(st)
		h.plots(st)
		if c.work.full && c.work.drawn {
			h.sampled()
		}
		return &st, nil
	},
}

// hotCase is the hot-filled pack at closing, and where it cools to.
type hotCase struct {
	*pass
	liquid drink.Liquid
	pack   hotfill.Pack
	store  hotfill.Store
	panel  string // where the panels come from
	heat   heating
	// dissolved is a factor on the air dissolved at closing, for bands.
	dissolved float64
}

// hotPack gathers the pack from the design and the drawn bottle.
func (c *pass) hotPack() (*hotCase, error) {
	d := c.d
	liquid, err := drinkOf(d).Liquid()
	if err != nil {
		return nil, err
	}
	fill, err := climate.Pressure(d.Climate.AltitudeFill)
	if err != nil {
		return nil, err
	}
	sale, err := climate.Pressure(d.Climate.AltitudeSale)
	if err != nil {
		return nil, err
	}
	panel, source := c.panels()
	shape := from[*Shape](c, "bottle")
	growth, err := c.outward()
	if err != nil {
		return nil, err
	}
	panel.Outward = growth * shape.Brimful * (1 - d.HotFill.Shrinkage)
	return &hotCase{
		pass: c, liquid: liquid, panel: source, heat: heatingOf(d), dissolved: 1,
		pack: hotfill.Pack{
			Liquid: liquid, Overflow: shape.Brimful, Fill: d.Brief.Nominal, FillAt: unit.Celsius(20), Temperature: d.Drink.FillTemperature,
			Gas: d.HotFill.Headspace, Steam: 1 - d.HotFill.Steam, Nitrogen: d.Drink.Nitrogen, Shrinkage: d.HotFill.Shrinkage,
			Panel: panel, Ambient: fill,
		},
		store: hotfill.Store{Temperature: d.HotFill.End, Ambient: sale},
	}, nil
}
