package run

// stages lists every stage in the order in which they run. A stage stands
// behind those it needs.
var stages = []stage{
	bottleStage, preformStage, wallStage, pressureStage, stressStage, shelfStage, hotfillStage,
	closureStage, stackStage, airStage, ovenHeatStage, costStage, footprintStage,
}
