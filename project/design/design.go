// Package design reads, checks and rewrites the design document: one YAML
// file that holds brief, drink, climate, resin, finish, closure, bottle,
// preform, oven, blow recipe, shelf, hot fill, plant and limits.
//
// The structs below are the schema. Their tags drive the decoder, the error
// texts, the JSON Schema and the form on the page:
//
//	yaml   key in the document
//	kind   quantity kind (package unit); the value is written with a unit
//	min    smallest accepted value, with unit
//	max    largest accepted value, with unit
//	enum   accepted words, comma-separated
//	label  short name
//	doc    one sentence for the reader
//
// A pointer is a value that may be absent without a default.
package design

import "costrel/unit"

// Schema is the version of the document that this program writes.
const Schema = 1

// Design is a resolved design document: what the user wrote over the template
// of the pack class. Numbers are SI.
type Design struct {
	Schema int    `yaml:"schema" label:"Schema" doc:"Version of the document format; this program reads 1."`
	Name   string `yaml:"name" label:"Name" doc:"Name of the design, shown on board and reports."`
	Class  string `yaml:"class" enum:"still-500,csd-500,csd-1500,csd-2000,hotfill-500,returnable-1000" label:"Pack class" doc:"Template whose values stand where the design says nothing."`
	Note   string `yaml:"note" label:"Note" doc:"Free text: what this variant is about."`

	Brief   Brief   `yaml:"brief" label:"Brief"`
	Drink   Drink   `yaml:"drink" label:"Drink"`
	Climate Climate `yaml:"climate" label:"Climate lane"`
	Resin   Resin   `yaml:"resin" label:"Resin"`
	Finish  Finish  `yaml:"finish" label:"Finish"`
	Closure Closure `yaml:"closure" label:"Closure"`
	Bottle  Bottle  `yaml:"bottle" label:"Bottle"`
	Preform Preform `yaml:"preform" label:"Preform"`
	Inject  Inject  `yaml:"inject" label:"Injection"`
	Oven    Oven    `yaml:"oven" label:"Oven"`
	Blow    Blow    `yaml:"blow" label:"Blow"`
	Shelf   Shelf   `yaml:"shelf" label:"Shelf life"`
	HotFill HotFill `yaml:"hotfill" label:"Hot fill"`
	Lab     Lab     `yaml:"lab" label:"Laboratory"`

	Handling Handling `yaml:"handling" label:"Handling"`

	Plant  Plant   `yaml:"plant" label:"Plant"`
	Limits []Limit `yaml:"limits" label:"Limits"`
}

// Brief is what the pack is asked to do.
type Brief struct {
	Customer  string  `yaml:"customer" label:"Customer" doc:"Who asked for the pack."`
	Product   string  `yaml:"product" enum:"still,carbonated,hotfill,aseptic,returnable" label:"Product" doc:"Decides which physics apply: a carbonated pack holds gas, a hot-filled one takes vacuum."`
	Nominal   float64 `yaml:"nominal" kind:"volume" min:"50 mL" max:"10 L" label:"Nominal volume" doc:"Volume of drink at ‹20 °C› declared on the label; also the fill volume."`
	ShelfLife float64 `yaml:"shelf_life" kind:"time" min:"1 d" max:"10 years" label:"Shelf life" doc:"Time from filling to the best-before date."`
	PerYear   float64 `yaml:"per_year" kind:"count" min:"1" max:"1e11" label:"Bottles per year" doc:"Yearly volume, for money and footprint."`
}

// Drink is what is filled.
type Drink struct {
	Carbonation     *float64         `yaml:"carbonation" kind:"carbonation" min:"0 vol" max:"6 vol" label:"Carbonation" doc:"CO2 in the drink in the sealed, equilibrated pack; leave out for a still drink."`
	Basis           string           `yaml:"basis" enum:"mass,chart" label:"Volumes basis" doc:"mass: grams of CO2 per litre of drink. chart: read from shaken pressure and temperature on the water chart."`
	Solubility      string           `yaml:"solubility" enum:"plummer-busenberg,weiss,carroll,iapws,vant-hoff" label:"Solubility law" doc:"Henry's law of CO2 in water. vant-hoff is the textbook two-parameter law, good near ‹25 °C› only."`
	Sugar           float64          `yaml:"sugar" kind:"concentration" min:"0 g/L" max:"700 g/L" label:"Sugar" doc:"Sugar in the drink; lowers the solubility of CO2 per litre and raises the density."`
	SugarRule       string           `yaml:"sugar_rule" enum:"water-mass,linear" label:"Sugar rule" doc:"water-mass: solubility per kilogram of water is unchanged. linear: solubility falls by sugar_slope per g/L."`
	SugarSlope      float64          `yaml:"sugar_slope" kind:"solubility change per concentration" min:"0 %/(g/L)" max:"0.5 %/(g/L)" label:"Sugar slope" doc:"Relative loss of CO2 solubility per g/L of sugar, for the linear rule."`
	FillTemperature unit.Temperature `yaml:"fill_temperature" kind:"temperature" min:"0 °C" max:"98 °C" label:"Fill temperature" doc:"Temperature of the drink when the pack is closed."`
	Reference       unit.Temperature `yaml:"reference_temperature" kind:"temperature" min:"0 °C" max:"40 °C" label:"Reference temperature" doc:"Temperature at which the carbonation of the closed pack is read."`
	Pack            string           `yaml:"pressure_model" enum:"closed,open" label:"Pressure model" doc:"closed: gas moves between drink and headspace of the sealed pack, which also grows. open: carbonation chart at constant carbonation."`
	Air             float64          `yaml:"headspace_air" kind:"fraction" min:"0 %" max:"100 %" label:"Headspace air" doc:"Share of the headspace that is air at ambient pressure when the pack is closed; the rest is CO2."`
	Nitrogen        float64          `yaml:"nitrogen" kind:"mass" min:"0 mg" max:"1 g" label:"Nitrogen dose" doc:"Liquid nitrogen kept in the pack at closing (after losses)."`
	Oxygen          float64          `yaml:"oxygen_dissolved" kind:"concentration" min:"0 mg/L" max:"20 mg/L" label:"Dissolved oxygen" doc:"Oxygen dissolved in the drink when the pack is closed."`
	NitrogenIn      float64          `yaml:"nitrogen_dissolved" kind:"concentration" min:"0 mg/L" max:"40 mg/L" label:"Dissolved nitrogen" doc:"Nitrogen dissolved in the drink when the pack is closed; a deaerated drink takes up headspace gas."`
	OxygenUse       float64          `yaml:"oxygen_use" kind:"rate" min:"0 1/d" max:"10 1/d" label:"Oxygen use" doc:"First-order rate at which the drink consumes dissolved oxygen; 0 for none."`
	Ascorbic        float64          `yaml:"ascorbic_acid" kind:"concentration" min:"0 mg/L" max:"5 g/L" label:"Ascorbic acid" doc:"Vitamin C that the oxygen is consumed by: the rate falls with what is left of it, 11 mg for each mg of oxygen. 0 leaves the rate without an end."`
	Preservative    bool             `yaml:"preservative" label:"Preservative" doc:"Whether the drink is protected against fermentation."`
}

// Climate is the lane the filled pack goes along.
type Climate struct {
	Store        unit.Temperature `yaml:"store" kind:"temperature" min:"-5 °C" max:"60 °C" label:"Store temperature" doc:"Temperature of ordinary storage."`
	Hot          unit.Temperature `yaml:"hot" kind:"temperature" min:"0 °C" max:"70 °C" label:"Hot lane" doc:"Temperature of the hottest stretch: truck, yard, warehouse."`
	HotTime      float64          `yaml:"hot_time" kind:"time" min:"0 h" max:"365 d" label:"Hot time" doc:"How long the hottest stretch lasts."`
	Humidity     float64          `yaml:"humidity" kind:"fraction" min:"0 %" max:"100 %" label:"Humidity" doc:"Relative humidity of the air in the store."`
	AltitudeFill float64          `yaml:"altitude_fill" kind:"length" min:"-430 m" max:"5000 m" label:"Altitude of filling" doc:"Height of the filling site above sea level; sets the pressure of the air closed in."`
	AltitudeSale float64          `yaml:"altitude_sale" kind:"length" min:"-430 m" max:"6000 m" label:"Altitude of sale" doc:"Height above sea level where the pack is stored and sold."`
	Lane         []LaneRow        `yaml:"lane" label:"Lane" doc:"Stretches of the lane in order. Without them the named lane holds."`
	Named        string           `yaml:"named_lane" enum:"store,room,warehouse,hot-day,route,tropical,highland" label:"Named lane" doc:"The lane where climate.lane has no rows. store: the store all along, with one hot stretch (hot, hot_time) after the first week; hot_time 0 h leaves it out. The others are data cards with days and seasons of their own, examples to be replaced by records of your route."`
	Days         string           `yaml:"days" enum:"averaged,followed" label:"Days of the lane" doc:"averaged: a stretch with a daily swing stands at the mean kinetic temperature of its day, and the warmest hour sets the highest pressure; within 0.15 points of the loss of a year for swings up to ‹10 K›, beyond an estimate. followed: every day is computed, some 15 times as long."`
	SeasonStart  float64          `yaml:"season_start" kind:"time" min:"0 d" max:"366 d" label:"Season at filling" doc:"Time from the coldest day of the year to the day of filling, for stretches with a season: 0 d fills in midwinter, 26 weeks in midsummer."`
}

// LaneRow is one stretch of the climate lane.
type LaneRow struct {
	Place       string               `yaml:"place" opt:"true" label:"Place" doc:"Where the pack is."`
	Duration    float64              `yaml:"duration" kind:"time" trade:"d" min:"1 min" max:"10 years" label:"Duration" doc:"How long the stretch lasts."`
	Temperature unit.Temperature     `yaml:"temperature" kind:"temperature" min:"-20 °C" max:"75 °C" label:"Temperature" doc:"Mean temperature of the stretch."`
	Swing       unit.TemperatureDiff `yaml:"swing" opt:"true" kind:"temperature difference" min:"0 K" max:"30 K" label:"Daily swing" doc:"Half of the difference between day and night; 0 for none."`
	Humidity    *float64             `yaml:"humidity" opt:"true" kind:"fraction" min:"0 %" max:"100 %" label:"Humidity" doc:"Relative humidity of the stretch; that of climate.humidity when left out."`
	Season      unit.TemperatureDiff `yaml:"season" opt:"true" kind:"temperature difference" min:"0 K" max:"30 K" label:"Seasonal swing" doc:"Half of the difference between summer and winter; 0 for none. Where the year stands at filling: climate.season_start."`
	Altitude    *float64             `yaml:"altitude" opt:"true" kind:"length" trade:"m" min:"-430 m" max:"6000 m" label:"Altitude" doc:"Height of the stretch above sea level; that of climate.altitude_sale when left out."`
}

// Resin is the plastic.
type Resin struct {
	Grade          string  `yaml:"grade" label:"Grade" doc:"Data card of the resin."`
	IV             float64 `yaml:"iv" kind:"intrinsic viscosity" min:"0.5 dL/g" max:"1.2 dL/g" label:"IV" doc:"Intrinsic viscosity of the preform wall."`
	Recycled       float64 `yaml:"recycled" kind:"fraction" min:"0 %" max:"100 %" label:"Recycled share" doc:"Mass share of recycled PET."`
	DensityPreform float64 `yaml:"density_preform" kind:"density" min:"1300 kg/m³" max:"1400 kg/m³" label:"Preform density" doc:"Solid density of the amorphous preform at ‹23 °C›."`
	DensityWall    float64 `yaml:"density_wall" kind:"density" min:"1330 kg/m³" max:"1420 kg/m³" label:"Wall density" doc:"Density of the stretched bottle wall."`
}

// Finish is the threaded neck above the support ledge.
type Finish struct {
	Type   string  `yaml:"type" label:"Type" doc:"Data card of the finish, by generic name."`
	Mass   float64 `yaml:"mass" kind:"mass" min:"0.5 g" max:"40 g" label:"Finish mass" doc:"Mass of the finish to the underside of the support ledge."`
	Bore   float64 `yaml:"bore" kind:"length" min:"8 mm" max:"80 mm" label:"Bore" doc:"Inside diameter of the finish."`
	Height float64 `yaml:"height" kind:"length" min:"5 mm" max:"60 mm" label:"Height" doc:"From the support ledge to the sealing surface."`
	Seal   float64 `yaml:"seal_diameter" kind:"length" min:"8 mm" max:"90 mm" label:"Seal diameter" doc:"Diameter on which the pressure lifts the closure."`
}

// Closure is the cap.
type Closure struct {
	Type     string  `yaml:"type" label:"Type" doc:"Data card of the closure, by generic name."`
	Mass     float64 `yaml:"mass" kind:"mass" min:"0.3 g" max:"40 g" label:"Closure mass" doc:"Mass of the closure with band and liner."`
	Tethered bool    `yaml:"tethered" label:"Tethered" doc:"Whether the cap stays on the bottle when opened."`
	CO2      float64 `yaml:"co2" kind:"gas conductance" min:"0 cm³/(d·atm)" max:"5 cm³/(d·atm)" label:"CO2 conductance" doc:"CO2 through closure and seal, per unit of pressure difference, at ‹23 °C›."`
	N2       float64 `yaml:"n2" kind:"gas conductance" min:"0 cm³/(d·atm)" max:"5 cm³/(d·atm)" label:"N2 conductance" doc:"Nitrogen through closure and seal at ‹23 °C›."`
	Water    float64 `yaml:"water" kind:"water conductance" min:"0 g/(d·kPa)" max:"1 g/(d·kPa)" label:"Water conductance" doc:"Water vapour through closure and seal."`
	O2       float64 `yaml:"o2" kind:"gas conductance" min:"0 cm³/(d·atm)" max:"5 cm³/(d·atm)" label:"O2 conductance" doc:"Oxygen through closure and seal at ‹23 °C›."`
	Leak     float64 `yaml:"leak" kind:"gas leak" min:"0 cm³/(d·bar²)" max:"100 cm³/(d·bar²)" label:"Leak" doc:"Viscous leak past the seal: gas as it stands in the headspace leaves at this times the square of the pressure inside less that of the air (bar absolute). A sparkling pack of ‹5 bar(a)› loses 24 times it a day."`
	Scavenge float64 `yaml:"scavenger" kind:"mass" min:"0 mg" max:"10 g" label:"Closure scavenger" doc:"Oxygen that a scavenger in the closure can bind before it is used up."`
	Share    float64 `yaml:"scavenger_share" kind:"fraction" min:"0 %" max:"100 %" label:"Scavenger share" doc:"Share of the oxygen coming through the closure that its fresh scavenger binds."`
}

// Bottle is the outer shape.
type Bottle struct {
	Height        float64      `yaml:"height" kind:"length" min:"40 mm" max:"600 mm" label:"Height" doc:"From the standing plane to the top of the finish."`
	Diameter      float64      `yaml:"diameter" kind:"length" min:"25 mm" max:"250 mm" label:"Body diameter" doc:"Largest outside diameter."`
	PanelDiameter float64      `yaml:"panel_diameter" kind:"length" min:"25 mm" max:"250 mm" label:"Panel diameter" doc:"Outside diameter of the label panel."`
	PanelFrom     float64      `yaml:"panel_from" kind:"length" min:"0 mm" max:"600 mm" label:"Panel from" doc:"Height where the label panel begins."`
	PanelTo       float64      `yaml:"panel_to" kind:"length" min:"0 mm" max:"600 mm" label:"Panel to" doc:"Height where the label panel ends."`
	Wall          float64      `yaml:"wall" kind:"length" min:"0.05 mm" max:"3 mm" label:"Nominal wall" doc:"Wall of the drawing, used for the nominal capacity."`
	Base          Base         `yaml:"base" label:"Base"`
	Planes        []float64    `yaml:"planes" kind:"length" min:"5 mm" max:"600 mm" label:"Section planes" doc:"Heights at which the bottle is cut to weigh base, panel and shoulder."`
	Parts         []float64    `yaml:"parts" opt:"true" kind:"length" min:"5 mm" max:"600 mm" label:"Sections part at" doc:"Heights at which base, panel and shoulder part for growth, stress and barrier; those of the section targets, else of planes when left out. A plane that is moved leaves them where they were."`
	Profile       []ProfileRow `yaml:"profile" label:"Profile" doc:"Outer profile from the standing plane to the support ledge; drawn from the main dimensions when left out."`
}

// Base is the generic shape of the base.
type Base struct {
	Type     string  `yaml:"type" enum:"petaloid,ribbed,punt,hemisphere" label:"Base type" doc:"Generic family of the base; averaged round the axis at this stage."`
	Height   float64 `yaml:"height" kind:"length" min:"0 mm" max:"120 mm" label:"Base height" doc:"Height over which the base runs into the body; of a hemisphere the height of its cap, at most the radius of the body."`
	Feet     int     `yaml:"feet" min:"0" max:"12" label:"Feet or ribs" doc:"Number of feet of a petaloid base, or of ribs."`
	Standing float64 `yaml:"standing_diameter" kind:"length" min:"10 mm" max:"240 mm" label:"Standing diameter" doc:"Diameter on which the bottle stands."`
	PushUp   float64 `yaml:"push_up" kind:"length" min:"0 mm" max:"60 mm" label:"Push-up" doc:"Height of the gate above the standing plane, empty. Of a punt or ribbed base it shapes the outline; of a petaloid base it is the clearance of the gate only, for the averaged outline is closed by a disc; a hemisphere has none."`
}

// ProfileRow is one point of the outer profile.
type ProfileRow struct {
	Z   float64 `yaml:"z" kind:"length" min:"-60 mm" max:"600 mm" label:"z" doc:"Height above the standing plane."`
	R   float64 `yaml:"r" kind:"length" min:"0 mm" max:"150 mm" label:"r" doc:"Outer radius."`
	Via string  `yaml:"via" opt:"true" label:"via" doc:"How the segment that ends here is drawn: line, curve, or arc with a signed radius (arc 35 mm)."`
}

// Preform is the injected part that is blown.
type Preform struct {
	InnerDiameter float64   `yaml:"inner_diameter" kind:"length" min:"6 mm" max:"60 mm" label:"Inner diameter" doc:"Core diameter of the body."`
	Wall          float64   `yaml:"wall" kind:"length" min:"1 mm" max:"10 mm" label:"Wall" doc:"Wall of the body."`
	Gate          float64   `yaml:"gate" kind:"length" min:"0.8 mm" max:"10 mm" label:"Gate wall" doc:"Wall at the end cap, near the gate."`
	Body          float64   `yaml:"body_length" kind:"length" min:"10 mm" max:"300 mm" label:"Body length" doc:"Straight length under the support ledge down to the end cap, taper included."`
	Taper         float64   `yaml:"taper_length" kind:"length" min:"0 mm" max:"60 mm" label:"Taper length" doc:"Length over which the wall grows from the neck wall to the body wall; 0 for none."`
	NeckWall      float64   `yaml:"neck_wall" kind:"length" min:"0.8 mm" max:"8 mm" label:"Neck wall" doc:"Wall directly under the support ledge, where the taper begins."`
	Targets       *Sections `yaml:"section_targets" label:"Section targets" doc:"Grams wanted in each section; they steer the instant preview of the wall."`
}

// Sections are the grams of the three sections.
type Sections struct {
	Shoulder float64   `yaml:"shoulder" kind:"mass" min:"0.1 g" max:"300 g" label:"Shoulder with finish" doc:"Above the upper plane, finish included."`
	Panel    float64   `yaml:"panel" kind:"mass" min:"0.1 g" max:"300 g" label:"Panel" doc:"Between the planes."`
	Base     float64   `yaml:"base" kind:"mass" min:"0.1 g" max:"300 g" label:"Base" doc:"Below the lower plane."`
	Planes   []float64 `yaml:"planes" opt:"true" kind:"length" min:"5 mm" max:"600 mm" label:"Planes of the targets" doc:"Heights at which these grams are cut; those of bottle.planes when left out. A plane of the bottle that is moved leaves them where they were weighed."`
}

// Oven is the reheat set-up.
type Oven struct {
	Zones       []ZoneRow            `yaml:"zones" label:"Zones" doc:"Lamp zones from neck to tip."`
	Overall     float64              `yaml:"overall" kind:"fraction" min:"0 %" max:"120 %" label:"Overall power" doc:"Share of the installed lamp power, on top of the zone settings."`
	Ventilation float64              `yaml:"ventilation" kind:"fraction" min:"0 %" max:"100 %" label:"Ventilation" doc:"Setting of the surface air."`
	Mean        unit.Temperature     `yaml:"mean_temperature" kind:"temperature" min:"78 °C" max:"130 °C" label:"Preform temperature" doc:"Mean temperature of the preform wall at blowing."`
	Inside      unit.Temperature     `yaml:"inside_temperature" kind:"temperature" min:"60 °C" max:"150 °C" label:"Inside temperature" doc:"Inner face at blowing, after equilibration."`
	Outside     unit.Temperature     `yaml:"outside_temperature" kind:"temperature" min:"60 °C" max:"150 °C" label:"Outside temperature" doc:"Outer face at blowing, after equilibration."`
	Tilt        unit.TemperatureDiff `yaml:"tilt" kind:"temperature difference" min:"-40 K" max:"40 K" label:"Tilt" doc:"Temperature at the tip less that under the neck, for temperatures from the card; found by calibration."`
	Bow         unit.TemperatureDiff `yaml:"bow" kind:"temperature difference" min:"-30 K" max:"30 K" label:"Bow" doc:"Temperature half way down the preform less that of both ends, for temperatures from the card; found by calibration."`
	Skew        unit.TemperatureDiff `yaml:"skew" kind:"temperature difference" min:"-20 K" max:"20 K" label:"Skew" doc:"By how much a fifth of the way down the preform is warmer, and a fifth of the way up colder, than tilt and bow say, for temperatures from the card; found by calibration."`
	Inlet       unit.Temperature     `yaml:"inlet_temperature" kind:"temperature" min:"0 °C" max:"60 °C" label:"Preform inlet" doc:"Temperature of the preform before the oven."`
	HeatTime    float64              `yaml:"heat_time" kind:"time" min:"2 s" max:"120 s" label:"Heating time" doc:"Time in front of the lamps, gaps included."`
	SoakTime    float64              `yaml:"soak_time" kind:"time" min:"0 s" max:"60 s" label:"Equilibration time" doc:"Time between the last lamp and the blow."`
	Lamps       string               `yaml:"temperatures" enum:"lamps,power,card" label:"Temperatures from" doc:"lamps: zones and lamps give the temperatures, scaled to the preform temperature. power: they give them as they are set, the preform temperature is a result. card: inside, mean and outside of the process card hold, with tilt and bow along the preform; the zones are not used."`
	Energy      float64              `yaml:"energy" kind:"specific energy" min:"0.02 kWh/kg" max:"1 kWh/kg" label:"Oven energy" doc:"Electricity of the oven per kilogram of PET heated."`
}

// Inject is how the preform is moulded.
type Inject struct {
	Melt      unit.Temperature `yaml:"melt_temperature" kind:"temperature" min:"255 °C" max:"310 °C" label:"Melt temperature" doc:"Temperature of the melt in hot runner and cavity."`
	Residence float64          `yaml:"residence" kind:"time" min:"5 s" max:"600 s" label:"Residence" doc:"Time that the plastic is molten, from the screw to the cavity."`
	Moisture  float64          `yaml:"moisture" kind:"fraction" min:"0 %" max:"0.1 %" label:"Moisture" doc:"Water in the dried resin by mass."`
	Face      unit.Temperature `yaml:"mould_temperature" kind:"temperature" min:"4 °C" max:"60 °C" label:"Preform mould" doc:"Temperature of cavity and core."`
	Cavities  int              `yaml:"cavities" min:"1" max:"192" label:"Cavities" doc:"Preforms moulded at once; for clamp force and output."`
}

// ZoneRow is one lamp zone.
type ZoneRow struct {
	Zone  int     `yaml:"zone" min:"1" max:"24" label:"Zone" doc:"Number of the zone, 1 next to the neck."`
	Power float64 `yaml:"power" kind:"fraction" min:"0 %" max:"100 %" label:"Power" doc:"Setting of the zone."`
}

// Blow is the stretch-blow recipe.
type Blow struct {
	Stations    int                `yaml:"stations" min:"1" max:"64" label:"Moulds" doc:"Number of blow stations."`
	Rate        float64            `yaml:"rate" kind:"output" min:"100 b/h" max:"150000 b/h" label:"Output" doc:"Bottles per hour of the machine."`
	RodSpeed    float64            `yaml:"rod_speed" kind:"speed" min:"0.1 m/s" max:"4 m/s" label:"Rod speed" doc:"Speed of the stretch rod."`
	RodDiameter float64            `yaml:"rod_diameter" kind:"length" min:"5 mm" max:"30 mm" label:"Rod diameter" doc:"Diameter of the stretch rod."`
	RodGap      float64            `yaml:"rod_gap" kind:"length" min:"0.2 mm" max:"8 mm" label:"Rod gap" doc:"Distance of rod and base mould at full stroke; the rod pins the gate."`
	PreBlow     unit.GaugePressure `yaml:"pre_blow" kind:"gauge pressure" min:"0 bar(g)" max:"25 bar(g)" label:"Pre-blow pressure" doc:"First stage of the air."`
	PreStart    float64            `yaml:"pre_start" kind:"length" min:"0 mm" max:"400 mm" label:"Pre-blow start" doc:"Rod travel at which the first stage opens."`
	High        unit.GaugePressure `yaml:"high_blow" kind:"gauge pressure" min:"2 bar(g)" max:"45 bar(g)" label:"High blow pressure" doc:"Second stage of the air."`
	HighStart   float64            `yaml:"high_start" kind:"length" min:"0 mm" max:"400 mm" label:"High blow start" doc:"Rod travel at which the second stage opens; ‹0 mm› is the end of the travel."`
	HighDelay   float64            `yaml:"high_delay" kind:"time" min:"0 s" max:"2 s" label:"High blow delay" doc:"Time from the rod touching the gate to the opening of the second stage; 0 s goes by the rod travel of high_start."`
	HighTime    float64            `yaml:"high_time" kind:"time" min:"0.1 s" max:"10 s" label:"High blow time" doc:"How long the second stage holds."`
	ExhaustTime float64            `yaml:"exhaust_time" kind:"time" min:"0.05 s" max:"5 s" label:"Exhaust time" doc:"Time to let the air out."`
	Body        unit.Temperature   `yaml:"body_temperature" kind:"temperature" min:"2 °C" max:"180 °C" label:"Body mould" doc:"Temperature of the body mould."`
	Base        unit.Temperature   `yaml:"base_temperature" kind:"temperature" min:"2 °C" max:"140 °C" label:"Base mould" doc:"Temperature of the base mould."`
	DeadVolume  float64            `yaml:"dead_volume" kind:"volume" min:"0 mL" max:"2 L" label:"Dead volume" doc:"Air space of one station outside the bottle that is filled each cycle."`
	PreOrifice  float64            `yaml:"pre_orifice" kind:"area" min:"0.5 mm²" max:"400 mm²" label:"Pre-blow orifice" doc:"Flow area of the first stage; sets how fast the bubble grows."`
	HighOrifice float64            `yaml:"high_orifice" kind:"area" min:"1 mm²" max:"1000 mm²" label:"High blow orifice" doc:"Flow area of the second stage."`
	Contact     float64            `yaml:"contact" kind:"heat transfer coefficient" min:"20 W/(m²·K)" max:"5000 W/(m²·K)" label:"Mould contact" doc:"Heat transfer from wall to mould at high pressure."`
	Friction    float64            `yaml:"friction" kind:"ratio" min:"0" max:"2" label:"Mould friction" doc:"Coulomb friction of the wall on the mould; 0 is sticking at first touch."`
	RodTip      string             `yaml:"rod_tip" enum:"holding,sliding" label:"Rod tip" doc:"holding: the tip fits the end cap of the preform and holds the plastic over it, so that the gate stays as thick as it was injected. sliding: a round tip on which the plastic slides freely; it draws the gate thin."`
	Law         string             `yaml:"law" label:"Hot law" doc:"Law of the hot plastic, by its name in the catalogue."`
	Free        bool               `yaml:"free" label:"Free blow" doc:"Blow without a mould, by the pre-blow alone: a virtual test of the preform. The wall of the bottle then stays the draw-down preview."`
	WallFactor  float64            `yaml:"wall_factor" kind:"ratio" min:"0.5" max:"2" label:"Panel factor" doc:"Multiplier on the computed wall of the panel, taken from base and shoulder; 1 until calibrated on section weights."`
	Residual    float64            `yaml:"fit_residual" kind:"fraction" min:"0 %" max:"100 %" label:"Residual of the fit" doc:"How far the panel of the fitted blow still lies from what was measured there: root mean square of the relative differences of its wall readings, at three heights or more. Written by costrel calibrate; the band of the wall then counts it instead of the accuracy of an unfitted blow. 0: not fitted."`
	WeightLeft  float64            `yaml:"fit_weight" kind:"mass" min:"0 g" max:"50 g" label:"Weights after the fit" doc:"The same of the section weights: root mean square of the differences, of all three sections. 0: not weighed."`
	FitMass     float64            `yaml:"fit_mass" kind:"mass" min:"0 g" max:"1 kg" label:"Mass at the fit" doc:"Mass of the preform that was fitted."`
	FitAt       string             `yaml:"fit_at" label:"Fitted at" doc:"What the blow was fitted at: law, rod tip, way of the temperatures and the numbers of process, preform and bottle, with their values. Written by costrel calibrate. Where the design has moved further than the ranges of the process, the fit no longer counts and the bands are those of an unfitted blow."`
	Recovery    float64            `yaml:"air_recovery" kind:"fraction" min:"0 %" max:"80 %" label:"Air recovery" doc:"Share of the blowing air that is used again."`
}

// Shelf holds what the shelf-life computation needs beyond wall and drink.
type Shelf struct {
	Factor     float64           `yaml:"barrier_factor" kind:"ratio" min:"0.05" max:"5" label:"Barrier factor" doc:"Multiplier on the permeability of the wall for all gases; 1 is the set of the preset. Fitted to pulls by costrel calibrate."`
	Preset     string            `yaml:"preset" enum:"central,trade-2L-26wk,pessimistic" label:"Barrier preset" doc:"Factor on the diffusivity of every wall on top of barrier_factor: central 1, trade-2L-26wk 0.845 (one number fitted to the trade's statement on a ‹2 L› bottle at ‹20 °C›), pessimistic 1.3 (the quickest losses reported for half-litre bottles)."`
	FactorSD   float64           `yaml:"barrier_spread" kind:"ratio" min:"0" max:"1" label:"Barrier spread" doc:"How uncertain the barrier factor is: standard deviation of its natural logarithm. A fit to pulls makes it less and writes it."`
	FittedAt   *unit.Temperature `yaml:"fitted_at" kind:"temperature" min:"0 °C" max:"60 °C" label:"Fitted at" doc:"Temperature of the pulls to which barrier_factor was fitted; leave out where it was not. The fit then holds wall and closure together at this temperature, so that the band of the carbonation loss counts barrier_spread instead of how well closure and thickness are known; tolerances of making go on counting."`
	FittedWall string            `yaml:"fitted_wall" enum:"preview,blown" label:"Fitted on" doc:"The wall on which barrier_factor was fitted: that of the preview, or that of the blow (costrel calibrate --blown). Counts with fitted_at only. On the other wall the same factor gives another loss, and the check says so."`
	Reference  string            `yaml:"loss_reference" enum:"sealed,filler,24h" label:"Loss from" doc:"What the loss is measured from: the sealed equilibrated pack, the filler set-point, or the reading after 24 hours."`
	Material   string            `yaml:"material" label:"Wall material" doc:"Data card of the stretched wall: PET by default; others answer what the same wall of another material would do."`
	Coating    string            `yaml:"coating" enum:"none,inner,outer" label:"Coating" doc:"A barrier coating on one face of the wall; finish and closure stay bare."`
	Improve    float64           `yaml:"coating_improvement" kind:"ratio" min:"1" max:"1000" label:"Coating improvement" doc:"How many times less CO2, and O2 and N2 unless coating_improvement_air says otherwise, the coated panel passes in steady state."`
	ImproveAir *float64          `yaml:"coating_improvement_air" kind:"ratio" min:"1" max:"1000" label:"Coating improvement, air" doc:"How many times less O2 and N2 the coated panel passes; leave out where it is as coating_improvement. Glass-like layers hold oxygen back more than carbon dioxide."`
	Scavenger  float64           `yaml:"scavenger" kind:"mass" min:"0 mg" max:"10 g" label:"Wall scavenger" doc:"Oxygen that a scavenger in the wall can bind before it is used up."`
	Blend      float64           `yaml:"blend_share" kind:"fraction" min:"0 %" max:"30 %" label:"Blend share" doc:"Mass share of a passive barrier polymer whose platelets make the gases go round in the wall; 0 for none."`
	Aspect     float64           `yaml:"blend_aspect" kind:"ratio" min:"1" max:"200" label:"Blend aspect" doc:"Length over thickness of the platelets in the stretched wall; about 27 for an aromatic polyamide. In the unstretched finish and gate they are taken as spheres, 1."`
	BlendRho   float64           `yaml:"blend_density" kind:"density" min:"800 kg/m³" max:"3000 kg/m³" label:"Blend density" doc:"Density of the barrier polymer, for its volume share."`
	Creep      bool              `yaml:"creep" label:"Creep" doc:"Whether the pack goes on growing after it is filled."`
	Age        float64           `yaml:"bottle_age" kind:"time" min:"1 h" max:"5 years" label:"Bottle age" doc:"How old the bottle is when it is filled; one that has rested creeps less."`
	Modulus    float64           `yaml:"modulus" kind:"stress" min:"1 GPa" max:"12 GPa" label:"Wall modulus" doc:"Modulus of the stretched wall in hoop direction at store temperature; sets how much the filled pack grows."`
	Poisson    float64           `yaml:"poisson" kind:"ratio" min:"0" max:"0.5" label:"Poisson's ratio" doc:"Of the stretched wall."`
	ShapeShare float64           `yaml:"growth_shape" kind:"ratio" min:"0.1" max:"1.5" label:"Growth shape" doc:"Growth of the real bottle over that of a closed cylinder of the panel; shoulder and base give less."`
	Spread     float64           `yaml:"wall_spread" kind:"fraction" min:"0 %" max:"40 %" label:"Wall spread" doc:"Relative standard deviation of the wall from bottle to bottle."`
}

// HotFill holds what the cooling balance of a hot-filled pack needs.
type HotFill struct {
	Headspace   unit.Temperature     `yaml:"headspace_temperature" kind:"temperature" min:"20 °C" max:"98 °C" label:"Headspace temperature" doc:"Temperature of the gas closed in, often some degrees below the drink."`
	Steam       float64              `yaml:"air_share" kind:"fraction" min:"0 %" max:"100 %" label:"Air share" doc:"Share of the dry gas that is left in the headspace: 100 % without steam flushing."`
	End         unit.Temperature     `yaml:"end_temperature" kind:"temperature" min:"0 °C" max:"40 °C" label:"End temperature" doc:"Temperature at which the vacuum is read."`
	Shrinkage   float64              `yaml:"shrinkage" kind:"fraction" min:"0 %" max:"10 %" label:"Shrinkage" doc:"Loss of bottle volume by the heat of filling."`
	Compliance  float64              `yaml:"panel_compliance" kind:"compliance" min:"0 mL/kPa" max:"20 mL/kPa" label:"Panel compliance" doc:"Volume the panels give per pressure difference."`
	PanelSource string               `yaml:"panel_source" enum:"design,computed" label:"Panels from" doc:"design: panel_compliance holds. computed: a full check takes the curve of volume over vacuum that the virtual vacuum test gives for the round wall; a preview still takes panel_compliance and says so."`
	Record      []RecordRow          `yaml:"record" label:"Temperature record" doc:"Temperatures of a recorder in the pack over time, two or more. With them the pasteurisation units are those of the record instead of hold and cooling."`
	Hold        float64              `yaml:"hold_time" kind:"time" min:"0 s" max:"60 min" label:"Hold time" doc:"Time the closed pack stays at fill temperature before it is cooled."`
	Cooling     float64              `yaml:"cooling_time" kind:"time" min:"10 s" max:"10 h" label:"Cooling time" doc:"Time constant of the cooling: after it the distance to the end temperature is 37 % of what it was. A short one counts less heat treatment."`
	Reference   unit.Temperature     `yaml:"pasteur_reference" kind:"temperature" min:"50 °C" max:"125 °C" label:"Pasteurisation reference" doc:"Temperature at which a minute counts one pasteurisation unit: ‹60 °C› for beer, ‹70 °C› for vegetative germs in acid drinks, ‹80 °C› where spores are a risk."`
	Z           unit.TemperatureDiff `yaml:"pasteur_z" kind:"temperature difference" min:"4 K" max:"20 K" label:"Pasteurisation z" doc:"Rise of temperature at which a minute counts ten times as much: ‹7 K› for beer, ‹10 K› for other drinks."`
}

// RecordRow is one reading of a temperature recorder.
type RecordRow struct {
	Time        float64          `yaml:"time" kind:"time" trade:"min" min:"0 s" max:"30 d" label:"Time" doc:"From the start of the record."`
	Temperature unit.Temperature `yaml:"temperature" kind:"temperature" min:"-10 °C" max:"150 °C" label:"Temperature" doc:"Reading of the recorder."`
}

// Lab holds what the laboratory found on filled packs.
type Lab struct {
	Temperature unit.Temperature `yaml:"temperature" kind:"temperature" min:"0 °C" max:"60 °C" label:"Pulls kept at" doc:"Temperature at which the laboratory keeps the packs of its pulls."`
	Pulls       []PullRow        `yaml:"pulls" label:"Carbonation pulls" doc:"Carbonation of packs opened over time, one row a pack. The trace of the carbonation shows them; costrel calibrate fits the barrier to them and can write them here from a CSV."`
	Drops       []DropRow        `yaml:"drops" label:"Up-and-down drops" doc:"Filled packs dropped one after the other, each once: one step lower after a failure, one step higher after a pass. The board shows the height at which half of them fail; costrel calibrate reads a CSV of them and can write them here."`
}

// DropRow is one pack of an up-and-down drop test.
type DropRow struct {
	Height float64 `yaml:"height" kind:"length" trade:"m" min:"10 mm" max:"10 m" label:"Height" doc:"From which the pack was dropped."`
	Failed int     `yaml:"failed" min:"0" max:"1" label:"Failed" doc:"1 for a pack that broke or leaked, 0 for one that stood."`
}

// PullRow is one pack opened.
type PullRow struct {
	Time        float64 `yaml:"time" kind:"time" trade:"d" min:"0 s" max:"10 years" label:"Time" doc:"From filling; 0 is the reading after 24 hours."`
	Carbonation float64 `yaml:"carbonation" kind:"carbonation" trade:"vol" min:"0.1 vol" max:"8 vol" label:"Carbonation" doc:"What was read."`
}

// FirstReading is when the pull called time 0 is read, after filling [s]: by then
// gas and headspace are in balance and the bottle has had its first growth.
const FirstReading = 86400.0

// SinceFilling returns when a pack of the pull was opened, after filling [s].
func (r PullRow) SinceFilling() float64 {
	if r.Time == 0 {
		return FirstReading
	}
	return r.Time
}

// Handling holds the conditions of the virtual tests of strength.
type Handling struct {
	Lab           unit.Temperature   `yaml:"lab_temperature" kind:"temperature" min:"5 °C" max:"40 °C" label:"Lab temperature" doc:"Temperature of burst, top load and vacuum tests, and at which a pack is measured after the stability test."`
	Stability     unit.Temperature   `yaml:"stability_temperature" kind:"temperature" min:"23 °C" max:"60 °C" label:"Stability temperature" doc:"Temperature of the thermal stability test."`
	StabilityTime float64            `yaml:"stability_time" kind:"time" min:"1 h" max:"60 d" label:"Stability time" doc:"How long the pack stands at the stability temperature."`
	Drop          float64            `yaml:"drop_height" kind:"length" min:"0.1 m" max:"5 m" label:"Drop height" doc:"Height of the drop test of the filled pack."`
	Stroke        float64            `yaml:"topload_stroke" kind:"length" min:"0.5 mm" max:"30 mm" label:"Top load stroke, empty" doc:"Stroke of the platen on the empty bottle within which the largest load counts."`
	StrokeFilled  float64            `yaml:"topload_stroke_filled" kind:"length" min:"0.5 mm" max:"30 mm" label:"Top load stroke, filled" doc:"The same on the filled and capped pack."`
	Bath          unit.GaugePressure `yaml:"bath_pressure" kind:"gauge pressure" min:"0.5 bar(g)" max:"10 bar(g)" label:"Bath pressure" doc:"Pressure inside the bottle in the stress-crack bath."`
	Altitude      float64            `yaml:"altitude" kind:"length" min:"0 m" max:"6000 m" label:"Altitude of the test" doc:"Height above sea level to which the closed pack is taken, a mountain pass say; pressure and growth there are shown where it lies above the altitude of sale."`
	Modulus       float64            `yaml:"modulus_factor" kind:"ratio" min:"0.3" max:"3" label:"Modulus factor" doc:"Multiplier on the modulus law of the stretched wall; 1 until calibrated on top load or growth."`
	Strength      float64            `yaml:"strength_factor" kind:"ratio" min:"0.3" max:"3" label:"Strength factor" doc:"Multiplier on the strength law of the stretched wall; 1 until calibrated on burst tests."`
	TopLoad       float64            `yaml:"topload_factor" kind:"ratio" min:"0.2" max:"6" label:"Top load factor" doc:"Multiplier on the top load of the empty bottle: what its dents and corners leave of the computed first buckle, or carry beyond it; 1 until calibrated on top load."`
	Creep         float64            `yaml:"creep_factor" kind:"ratio" min:"0" max:"10" label:"Creep factor" doc:"Multiplier on the creep law of the wall, which is written for half the stress of a sparkling pack. 0.3 makes a usual pack grow 1.5 to 3 % in the stability test (common practice); calibrate it there."`
	ModulusSD     float64            `yaml:"modulus_spread" kind:"ratio" min:"0" max:"1" label:"Modulus spread" doc:"What a fit to tests leaves of the modulus factor: standard deviation of its natural logarithm. 0: not fitted, the band is that of the law from memory."`
	StrengthSD    float64            `yaml:"strength_spread" kind:"ratio" min:"0" max:"1" label:"Strength spread" doc:"The same of the strength factor."`
	TopLoadSD     float64            `yaml:"topload_spread" kind:"ratio" min:"0" max:"1" label:"Top load spread" doc:"The same of the top load factor times the modulus factor; 0: not fitted, the band is that of stiffness and imperfections."`
	CreepSD       float64            `yaml:"creep_spread" kind:"ratio" min:"0" max:"2" label:"Creep spread" doc:"The same of the creep factor."`
	Residual      float64            `yaml:"fit_residual" kind:"fraction" min:"0 %" max:"100 %" label:"Residual of the fit" doc:"How far the fitted tests still lie from the model: root mean square of the relative differences. 0: not fitted."`
	Hardening     float64            `yaml:"hardening_strain" kind:"fraction" min:"2 %" max:"100 %" label:"Strain to the ultimate strength" doc:"Plastic strain of the wall from first yield to its ultimate strength. It makes burst.expansion and hardly anything else: costrel calibrate fits it to the volume expansion at burst."`
	HardeningSD   float64            `yaml:"hardening_spread" kind:"ratio" min:"0" max:"1" label:"Hardening spread" doc:"What that fit leaves of the strain: standard deviation of its natural logarithm. 0: not fitted, the band is 5 to 40 % from memory."`
}

// Plant holds prices, energies, emissions and pallet.
type Plant struct {
	Currency         string  `yaml:"currency" label:"Currency" doc:"Three-letter code of the currency of every price."`
	ResinPrice       float64 `yaml:"resin_price" kind:"price per mass" min:"0 EUR/kg" max:"20 EUR/kg" label:"Resin price" doc:"Price of the resin blend."`
	ClosurePrice     float64 `yaml:"closure_price" kind:"price per 1000" min:"0 EUR/1000" max:"500 EUR/1000" label:"Closure price" doc:"Price of 1000 closures."`
	LabelPrice       float64 `yaml:"label_price" kind:"price per 1000" min:"0 EUR/1000" max:"500 EUR/1000" label:"Label price" doc:"Price of 1000 labels."`
	PreformMaking    float64 `yaml:"preform_making" kind:"price per 1000" min:"0 EUR/1000" max:"500 EUR/1000" label:"Preform making" doc:"Conversion cost of 1000 preforms without resin."`
	Blowing          float64 `yaml:"blowing" kind:"price per 1000" min:"0 EUR/1000" max:"500 EUR/1000" label:"Blowing" doc:"Machine and labour of blowing 1000 bottles without air and electricity."`
	Electricity      float64 `yaml:"electricity" kind:"price per energy" min:"0 EUR/kWh" max:"2 EUR/kWh" label:"Electricity" doc:"Price of electricity."`
	AirEnergy        float64 `yaml:"air_energy" kind:"energy per normal volume" min:"0.05 kWh/Nm³" max:"1 kWh/Nm³" label:"Air energy" doc:"Electricity for one normal cubic metre of blowing air, measured at the compressor."`
	Scrap            float64 `yaml:"scrap" kind:"fraction" min:"0 %" max:"50 %" label:"Scrap" doc:"Share of bottles made that are not sold."`
	Tooling          float64 `yaml:"tooling" kind:"money" min:"0 EUR" max:"100000000 EUR" label:"Tooling" doc:"One-off money for moulds and parts."`
	ToolingBottles   float64 `yaml:"tooling_bottles" kind:"count" min:"1" max:"1e12" label:"Tooling life" doc:"Bottles over which the tooling is spread."`
	GridEmission     float64 `yaml:"grid_emission" kind:"emission per energy" min:"0 kgCO2e/kWh" max:"2 kgCO2e/kWh" label:"Grid emission" doc:"Emission of the electricity used."`
	VirginEmission   float64 `yaml:"virgin_emission" kind:"emission per mass" min:"0 kgCO2e/kg" max:"10 kgCO2e/kg" label:"Virgin PET emission" doc:"Cradle to gate."`
	RecycledEmission float64 `yaml:"recycled_emission" kind:"emission per mass" min:"0 kgCO2e/kg" max:"10 kgCO2e/kg" label:"Recycled PET emission" doc:"Cradle to gate."`
	ClosureEmission  float64 `yaml:"closure_emission" kind:"emission per mass" min:"0 kgCO2e/kg" max:"10 kgCO2e/kg" label:"Closure emission" doc:"Cradle to gate of the closure material."`
	PerLayer         int     `yaml:"per_layer" min:"1" max:"2000" label:"Packs per layer" doc:"Packs in one layer of a pallet."`
	Layers           int     `yaml:"layers" min:"1" max:"20" label:"Layers" doc:"Layers on a pallet."`
	Pallets          int     `yaml:"pallets_high" min:"1" max:"6" label:"Pallets high" doc:"Pallets stacked on each other."`
	PalletMass       float64 `yaml:"pallet_mass" kind:"mass" min:"0 kg" max:"80 kg" label:"Pallet mass" doc:"Mass of one empty pallet."`
	StackFactor      float64 `yaml:"stack_factor" kind:"ratio" min:"1" max:"6" label:"Stack factor" doc:"Factor on the static stack load for creep in store, dynamics and uneven share; 1.5 to 3 in practice."`
}

// Limit is one requirement on a figure.
type Limit struct {
	Figure string `yaml:"figure" label:"Figure" doc:"Key of the figure that is limited."`
	Side   string `yaml:"side" enum:"min,max" label:"Side" doc:"min: the figure must not fall below. max: it must not exceed."`
	Value  string `yaml:"value" label:"Value" doc:"The limit, with unit."`
	Owner  string `yaml:"owner" opt:"true" label:"Owner" doc:"Who set the limit."`
	Source string `yaml:"source" opt:"true" label:"Source" doc:"Where the limit comes from; example when it is only that."`
	Note   string `yaml:"note" opt:"true" label:"Note" doc:"Anything to add."`
}
