package extract

import "clampline/diagram"

// joinNeutrals joins the neutrals of two buses where both have one.
func (x *extractor) joinNeutrals(name string, a, b int) {
	from, okA := x.conductor(a, 'N')
	to, okB := x.conductor(b, 'N')
	if okA && okB {
		x.addInductor(x.unique(name+" neutral"), from, to, jointInductance, 0)
	}
}

// addTransfers joins the neutrals of transfer switches that do not switch
// them.
func (x *extractor) addTransfers() {
	for part := range x.Document.Parts() {
		if part.Kind != diagram.TransferSwitch || part.Transfer.SwitchesNeutral {
			continue
		}
		other := diagram.Normal
		if part.Transfer.Selected() == diagram.Normal {
			other = diagram.Emergency
		}
		a, b := x.at[diagram.End{Part: part.ID, Port: other}], x.at[diagram.End{Part: part.ID, Port: diagram.Common}]
		if x.places[a].bus != None && x.places[b].bus != None {
			x.mustJoin(a, b)
			x.joinNeutrals(x.Document.NameOf(part.ID), x.places[a].bus, x.places[b].bus)
		}
	}
}
