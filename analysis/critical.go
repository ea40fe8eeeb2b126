package analysis

import "clampline/diagram"

// CriticalParts returns the critical loads of the document and all parts that
// they are fed through, back to the source.
func CriticalParts(doc *diagram.Document, topology *Topology) map[diagram.ID]bool {
	out, seen := map[diagram.ID]bool{}, map[*Node]bool{}
	for part := range doc.Parts() {
		if part.Kind != diagram.Load || !part.Load.Critical {
			continue
		}
		for node := topology.Node(part); node != nil && !seen[node]; node = node.Up {
			seen[node], out[node.At.Part] = true, true
		}
	}
	return out
}
