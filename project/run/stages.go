package run

// stages lists every stage in the order in which they run. A stage stands
// behind those it needs.
var stages = []stage{
	bottleStage, preformStage, injectStage, reheatStage, blowStage, wallStage, sectionStage, pressureStage, stressStage,
	strengthStage, hotfillStage, shelfStage, closureStage, stackStage, airStage, ovenHeatStage, costStage, footprintStage,
}

// FullStages returns the names of the stages that run in a full check only.
func FullStages() []string {
	var out []string
	for _, s := range stages {
		if s.full {
			out = append(out, s.name)
		}
	}
	return out
}
