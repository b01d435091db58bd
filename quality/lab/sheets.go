package lab

import (
	"costrel/quality/stat"
	"costrel/unit"
)

// labels are the columns that any sheet may have.
var labels = []Rule{
	{Name: "bottle", Key: "bottle", Label: "Bottle", Role: Label},
	{Name: "sample", Key: "sample", Label: "Sample", Role: Label},
	{Name: "no", Key: "sample", Label: "Sample", Role: Label},
	{Name: "mould", Key: "mould", Label: "Mould", Role: Label},
	{Name: "mold", Key: "mould", Label: "Mould", Role: Label},
	{Name: "cavity", Key: "cavity", Label: "Cavity", Role: Label},
	{Name: "preform_lot", Key: "preform_lot", Label: "Preform lot", Role: Label},
	{Name: "resin_lot", Key: "resin_lot", Label: "Resin lot", Role: Label},
	{Name: "operator", Key: "operator", Label: "Operator", Role: Label},
	{Name: "time", Key: "time", Label: "Time", Role: Label},
	{Name: "date", Key: "date", Label: "Date", Role: Label},
	{Name: "scale_id", Key: "scale_id", Label: "Scale", Role: Label},
	{Name: "rig_id", Key: "rig_id", Label: "Rig", Role: Label},
	{Name: "method_ref", Key: "method_ref", Label: "Method", Role: Label},
	{Name: "planes_mm", Key: "planes", Label: "Cut planes", Role: Label},
	{Name: "remark", Key: "remark", Label: "Remark", Role: Label},
	{Name: "remarks", Key: "remark", Label: "Remark", Role: Label},
	{Name: "zone", Key: "zone", Label: "Zone", Role: Label},
	{Name: "burst_location", Key: "burst_location", Label: "Place of burst", Role: Label},
}

// tests are the bottle and closure tests, one piece a row. The heading of
// each must name the unit.
var tests = []Rule{
	{Name: "topload_empty_vented", Key: "topload.empty", Label: "Top load, empty and vented", Kind: unit.Force, Role: Measure},
	{Name: "topload_empty", Key: "topload.empty", Label: "Top load, empty", Kind: unit.Force, Role: Measure},
	{Name: "topload_filled", Key: "topload.filled", Label: "Top load, filled", Kind: unit.Force, Role: Measure},
	{Name: "topload", Key: "topload.empty", Label: "Top load, empty", Kind: unit.Force, Role: Measure},
	{Name: "topload_old", Key: "topload.empty", Label: "Top load, empty", Kind: unit.Force, Role: Measure, Variant: "old"},
	{Name: "topload_new", Key: "topload.empty", Label: "Top load, empty", Kind: unit.Force, Role: Measure, Variant: "new"},
	{Name: "burst", Key: "burst.pressure", Label: "Burst pressure", Kind: unit.PressureGauge, Role: Measure},
	{Name: "burst_old", Key: "burst.pressure", Label: "Burst pressure", Kind: unit.PressureGauge, Role: Measure, Variant: "old"},
	{Name: "burst_new", Key: "burst.pressure", Label: "Burst pressure", Kind: unit.PressureGauge, Role: Measure, Variant: "new"},
	{Name: "vol_expansion_at_burst", Key: "burst.expansion", Label: "Volume expansion at burst", Kind: unit.Fraction, Role: Measure},
	{Name: "ts_dia_growth", Key: "growth.diameter", Label: "Diameter growth, thermal stability", Kind: unit.Fraction, Role: Measure},
	{Name: "ts_height_growth", Key: "growth.height", Label: "Height growth, thermal stability", Kind: unit.Length, Role: Measure},
	{Name: "ts_fill_drop", Key: "fillpoint.drop", Label: "Fill-point drop, thermal stability", Kind: unit.Length, Role: Measure},
	{Name: "ts_base_clearance", Key: "base.clearance", Label: "Base clearance, thermal stability", Kind: unit.Length, Role: Measure},
	{Name: "perpendicularity", Key: "perpendicularity", Label: "Perpendicularity", Kind: unit.Length, Role: Measure},
	{Name: "stress_crack", Key: "stresscrack.time", Label: "Time to stress crack", Kind: unit.Time, Role: Measure, Scale: stat.Log},
	{Name: "cold_vacuum", Key: "hotfill.vacuum", Label: "Vacuum after cooling", Kind: unit.PressureChange, Role: Measure},
	{Name: "capacity_shrink", Key: "hotfill.shrinkage", Label: "Capacity shrinkage, hot fill", Kind: unit.Fraction, Role: Measure},
	{Name: "height_change", Key: "hotfill.height.change", Label: "Height change, hot fill", Kind: unit.Length, Role: Measure},
	{Name: "ovality_label", Key: "ovality.label", Label: "Ovality at the label", Kind: unit.Length, Role: Measure},
	{Name: "neck_bore_change", Key: "hotfill.bore.change", Label: "Change of the bore, hot fill", Kind: unit.Length, Role: Measure},
	{Name: "push_up_height", Key: "base.push_up", Label: "Push-up height", Kind: unit.Length, Role: Measure},
	{Name: "removal_torque", Key: "torque.removal", Label: "Removal torque", Kind: unit.Torque, Role: Measure},
}

// Sheets lists the kinds of lab table that the reader knows, with every
// heading they may have.
func Sheets() []Sheet {
	with := func(name, title string, rules ...Rule) Sheet {
		return Sheet{Name: name, Title: title, Rules: append(rules, labels...)}
	}
	return []Sheet{
		with("sections", "Section weights",
			Rule{Name: "total", Key: "bottle.mass", Label: "Bottle mass", Kind: unit.Mass, Role: Measure},
			Rule{Name: "shoulder_incl_finish", Key: "section.shoulder.mass", Label: "Shoulder section with finish", Kind: unit.Mass, Role: Measure},
			Rule{Name: "shoulder", Key: "section.shoulder.mass", Label: "Shoulder section with finish", Kind: unit.Mass, Role: Measure},
			Rule{Name: "panel", Key: "section.panel.mass", Label: "Panel section", Kind: unit.Mass, Role: Measure},
			Rule{Name: "base", Key: "section.base.mass", Label: "Base section", Kind: unit.Mass, Role: Measure},
		),
		with("tests", "Bottle tests, one column a test", tests...),
		with("stresscrack", "Stress crack, old against new",
			Rule{Name: "old", Key: "stresscrack.time", Label: "Time to stress crack", Kind: unit.Time, Role: Measure, Variant: "old", Scale: stat.Log},
			Rule{Name: "new", Key: "stresscrack.time", Label: "Time to stress crack", Kind: unit.Time, Role: Measure, Variant: "new", Scale: stat.Log},
		),
		with("torque", "Torque to break the band",
			Rule{Name: "old_neck_4C", Key: "torque.band", Label: "Torque to break the band", Kind: unit.Torque, Role: Measure, Variant: "old", Condition: "4 °C"},
			Rule{Name: "new_neck_4C", Key: "torque.band", Label: "Torque to break the band", Kind: unit.Torque, Role: Measure, Variant: "new", Condition: "4 °C"},
			Rule{Name: "old_neck_22C", Key: "torque.band", Label: "Torque to break the band", Kind: unit.Torque, Role: Measure, Variant: "old", Condition: "22 °C"},
			Rule{Name: "new_neck_22C", Key: "torque.band", Label: "Torque to break the band", Kind: unit.Torque, Role: Measure, Variant: "new", Condition: "22 °C"},
		),
		with("opening", "Opening angles",
			Rule{Name: "bridge_break", Key: "opening.bridge", Label: "Angle at bridge break", Kind: unit.Angle, Role: Measure},
			Rule{Name: "seal_release", Key: "opening.seal", Label: "Angle at seal release", Kind: unit.Angle, Role: Measure},
			Rule{Name: "difference", Key: "opening.difference", Label: "Seal release behind bridge break", Kind: unit.Angle, Role: Measure},
		),
		with("cycles", "Temperature cycles of the closure",
			Rule{Name: "cap_rise", Key: "closure.rise", Label: "Rise of the cap", Kind: unit.Length, Role: Measure},
			Rule{Name: "leak", Key: "closure.leak", Label: "Leak", Kind: unit.Count, Role: Measure},
			Rule{Name: "band_broken", Key: "closure.band", Label: "Band broken", Kind: unit.Count, Role: Measure},
		),
		with("thickness", "Wall thickness round the bottle",
			Rule{Name: "z_mm_from_base", Key: "z", Label: "Height above the base", Kind: unit.Length, Unit: "mm", Role: Setting},
			Rule{Name: "q#", Key: "wall", Label: "Wall", Kind: unit.Length, Role: Measure},
			Rule{Name: "mean", Key: "wall.mean", Label: "Mean wall", Kind: unit.Length, Role: Derived},
			Rule{Name: "spread", Key: "wall.spread", Label: "Spread of the wall", Kind: unit.Fraction, Role: Derived},
		),
		with("carbonation", "Carbonation pulls",
			Rule{Name: "week", Key: "week", Label: "Week", Kind: unit.Time, Unit: "weeks", Role: Setting},
			Rule{Name: "day", Key: "week", Label: "Day", Kind: unit.Time, Unit: "d", Role: Setting},
			Rule{Name: "weeks", Key: "week", Label: "Week", Kind: unit.Time, Unit: "weeks", Role: Setting},
			Rule{Name: "days", Key: "week", Label: "Day", Kind: unit.Time, Unit: "d", Role: Setting},
			Rule{Name: "time", Key: "week", Label: "Time", Kind: unit.Time, Role: Setting},
			Rule{Name: "temp", Key: "temperature", Label: "Kept at", Kind: unit.TemperaturePoint, Role: Setting},
			Rule{Name: "temperature", Key: "temperature", Label: "Kept at", Kind: unit.TemperaturePoint, Role: Setting},
			Rule{Name: "store", Key: "temperature", Label: "Kept at", Kind: unit.TemperaturePoint, Role: Setting},
			Rule{Name: "vol", Key: "drink.carbonation", Label: "Carbonation", Kind: unit.Carbonation, Unit: "vol", Role: Measure},
			Rule{Name: "volumes", Key: "drink.carbonation", Label: "Carbonation", Kind: unit.Carbonation, Unit: "vol", Role: Measure},
			Rule{Name: "carbonation", Key: "drink.carbonation", Label: "Carbonation", Kind: unit.Carbonation, Role: Measure},
			Rule{Name: "co2", Key: "drink.carbonation", Label: "Carbonation", Kind: unit.Carbonation, Role: Measure},
			Rule{Name: "bottle#", Key: "drink.carbonation", Label: "Carbonation", Kind: unit.Carbonation, Role: Measure},
			Rule{Name: "b#", Key: "drink.carbonation", Label: "Carbonation", Kind: unit.Carbonation, Role: Measure},
		),
		with("drops", "Up-and-down drops of filled packs",
			Rule{Name: "drop_height", Key: "drop.height", Label: "Drop height", Kind: unit.Length, Role: Setting},
			Rule{Name: "failed", Key: "drop.failed", Label: "Failed", Kind: unit.Count, Role: Measure},
		),
		with("shrinkage", "Shrinkage against fill temperature",
			Rule{Name: "fill", Key: "fill", Label: "Fill temperature", Kind: unit.TemperaturePoint, Role: Setting},
			Rule{Name: "b#", Key: "hotfill.shrinkage", Label: "Capacity shrinkage, hot fill", Kind: unit.Fraction, Role: Measure},
			Rule{Name: "mean", Key: "hotfill.shrinkage.mean", Label: "Mean shrinkage", Kind: unit.Fraction, Role: Derived},
		),
		with("density", "Density by zone",
			Rule{Name: "d#", Key: "wall.density", Label: "Density of the wall", Kind: unit.Density, Role: Measure},
			Rule{Name: "crystallinity", Key: "wall.crystallinity", Label: "Crystallinity", Kind: unit.Fraction, Role: Derived},
		),
		with("long", "Tests, one row a result",
			Rule{Name: "test_code", Key: "test_code", Label: "Test", Role: Code},
			Rule{Name: "test", Key: "test_code", Label: "Test", Role: Code},
			Rule{Name: "value", Key: "value", Label: "Value", Role: Result},
			Rule{Name: "unit", Key: "unit", Label: "Unit", Role: UnitOf},
			Rule{Name: "setpoint", Key: "setpoint", Label: "Setpoint", Role: Label},
			Rule{Name: "duration", Key: "duration", Label: "Duration", Role: Label},
			Rule{Name: "temp", Key: "temperature", Label: "Temperature of the test", Kind: unit.TemperaturePoint, Role: Setting},
			Rule{Name: "rh", Key: "humidity", Label: "Humidity of the test", Kind: unit.Fraction, Role: Setting},
		),
	}
}

// FindSheet returns the sheet of a name.
func FindSheet(name string) (Sheet, bool) {
	for _, s := range Sheets() {
		if s.Name == name {
			return s, true
		}
	}
	return Sheet{}, false
}
