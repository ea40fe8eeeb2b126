package analysis

import "clampline/diagram"

// CriticalParts returns the critical loads of the document and all parts that
// they are fed through, back to the source.
func CriticalParts(doc *diagram.Document, topology *Topology) map[diagram.ID]bool {
	return feeding(doc, topology, func(p diagram.Part) bool { return p.Kind == diagram.Load && p.Load.Critical })
}

// feeding returns the parts that are meant and all that they are fed through,
// back to the source.
func feeding(doc *diagram.Document, topology *Topology, meant func(diagram.Part) bool) map[diagram.ID]bool {
	out, seen := map[diagram.ID]bool{}, map[*Node]bool{}
	for part := range doc.Parts() {
		if !meant(part) {
			continue
		}
		for node := topology.Node(part); node != nil && !seen[node]; node = node.Up {
			seen[node], out[node.At.Part] = true, true
		}
	}
	return out
}
