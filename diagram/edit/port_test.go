package edit

import (
	"testing"

	"clampline/diagram"
)

// What the parts are says which terminal a feeder takes; what it does not say, their
// places do.
func TestPortByKind(t *testing.T) {
	for _, row := range []struct {
		kind, other diagram.Kind
		port        diagram.Port
		sure        bool
	}{
		{diagram.Transformer, diagram.Supply, diagram.Primary, true}, {diagram.Transformer, diagram.Generator, diagram.Primary, true},
		{diagram.Transformer, diagram.Load, diagram.Secondary, true}, {diagram.Transformer, diagram.Panel, diagram.Secondary, false},
		{diagram.TransferSwitch, diagram.Supply, diagram.Normal, true}, {diagram.TransferSwitch, diagram.Generator, diagram.Emergency, true},
		{diagram.TransferSwitch, diagram.Load, diagram.Common, true}, {diagram.TransferSwitch, diagram.Panel, diagram.Common, false},
		{diagram.Panel, diagram.Supply, "", false},
	} {
		port, sure := portByKind(row.kind, row.other)
		if sure != row.sure || sure && port != row.port {
			t.Errorf("%s to %s: got %q, %v; want %q, %v", row.kind, row.other, port, sure, row.port, row.sure)
		}
	}
}
