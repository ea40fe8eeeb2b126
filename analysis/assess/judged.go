package assess

import (
	"cmp"
	"slices"

	"clampline/analysis"
	"clampline/diagram"
)

// judgedBy tells by which board or load the wiring at each terminal is judged:
// the nearest one that it leads to, or else the one that it comes from, in its
// zone.
type judgedBy map[diagram.End]judgedPart

type judgedPart struct {
	id    diagram.ID
	total float64 // m, back to the source
}

func findJudged(doc *diagram.Document, result *analysis.Result) judgedBy {
	nodes := make([]*analysis.Node, 0, len(result.Topology.Nodes))
	for _, node := range result.Topology.Nodes {
		nodes = append(nodes, node)
	}
	slices.SortFunc(nodes, func(a, b *analysis.Node) int {
		return cmp.Or(cmp.Compare(a.Depth, b.Depth), diagram.CompareID(a.At.Part, b.At.Part), cmp.Compare(a.At.Port, b.At.Port))
	})
	out := judgedBy{}
	for _, node := range slices.Backward(nodes) {
		if _, ok := result.Buses[node.At.Part]; ok {
			out[node.At] = judgedPart{node.At.Part, node.Total}
		}
		below, ok := out[node.At]
		if !ok || node.Up == nil || node.Up.Zone != node.Zone {
			continue
		}
		if known, ok := out[node.Up.At]; !ok || below.total < known.total {
			out[node.Up.At] = below
		}
	}
	for _, node := range nodes {
		if _, ok := out[node.At]; !ok && node.Up != nil && node.Up.Zone == node.Zone {
			if above, ok := out[node.Up.At]; ok {
				out[node.At] = above
			}
		}
	}
	return out
}

// of returns what a feeder is judged by: that of its end away from the supply.
func (j judgedBy) of(f diagram.Feeder) diagram.ID {
	if part, ok := j[f.To]; ok {
		return part.id
	}
	return j[f.From].id
}
