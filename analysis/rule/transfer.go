package rule

import (
	"clampline/analysis"
	"clampline/diagram"
)

// topologyOnNormal returns what is connected to what with every transfer switch
// on its normal side. That is the topology of the input unless one of them stands
// on its other side.
func topologyOnNormal(in Input) *analysis.Topology {
	for part := range in.Document.Parts() {
		if onEmergency(part) {
			return analysis.Trace(onNormal(in.Document))
		}
	}
	return in.Topology
}

func onEmergency(part diagram.Part) bool {
	return part.Kind == diagram.TransferSwitch && part.Transfer.Position == diagram.ToEmergency
}

// onNormal returns a snapshot of the document with every transfer switch on its
// normal side.
func onNormal(doc *diagram.Document) *diagram.Document {
	out := doc.Snapshot()
	_, err := out.Edit(func(tx *diagram.Tx) error {
		for part := range doc.Parts() {
			if onEmergency(part) {
				part.Transfer.Position = diagram.ToNormal
				tx.SetPart(part)
			}
		}
		return nil
	})
	if err != nil {
		return doc // which is not valid itself
	}
	return out
}
