package rule_test

import (
	"context"
	"testing"

	"github.com/google/go-cmp/cmp"

	"clampline/analysis"
	"clampline/analysis/rule"
	"clampline/diagram"
	"clampline/diagram/diagramtest"
)

// behindSwitch is a supply and a generator on a transfer switch, and the service
// board behind it.
func behindSwitch(t *testing.T, system diagram.System, e diagram.Exposure, position diagram.Position) *site {
	s := newSite(t, system).exposed(e).board("main", diagram.BoardData{Service: true, MainBreaker: 200})
	s.part(diagram.Part{ID: "set", Kind: diagram.Generator, System: system})
	s.part(diagram.Part{ID: "switch", Kind: diagram.TransferSwitch, Transfer: diagram.TransferData{Position: position}})
	return s.wire(5, "", "supply > switch:normal", "set > switch:emergency", "switch:load > main")
}

// What codes ask for does not depend on the side on which a transfer switch
// happens to be drawn.
func TestPositionDoesNotMatter(t *testing.T) {
	flash := diagram.Exposure{Occupancy: diagram.Dwelling, Lightning: diagram.LightningI}
	tests := []struct {
		name   string
		system diagram.System
		attach []func(*diagram.Protector) // nil for none
		want   int
	}{
		{"a bare dwelling under a lightning protection system", splitOf240, nil, 2},
		{"10 kA there", splitOf240, []func(*diagram.Protector){carries(10e3), fused}, 1},
		{"IEC, bare", tnsOf400, nil, 1},
		{"IEC, class II at the origin", tnsOf400, []func(*diagram.Protector){of(diagram.ClassII)}, 1},
		{"IEC, too small an Iimp", tnsOf400, []func(*diagram.Protector){impulse(12.5e3)}, 1},
	}
	for _, test := range tests {
		found := map[diagram.Position][]string{}
		for _, position := range []diagram.Position{diagram.ToNormal, diagram.ToEmergency} {
			s := behindSwitch(t, test.system, flash, position)
			if test.attach != nil {
				s.attach("main", test.attach...)
			}
			for _, f := range diagramtest.Must(rule.Check(context.Background(), s.input())) {
				switch f.Subject {
				case analysis.SubjectRequired, analysis.SubjectRisk, analysis.SubjectPlace, analysis.SubjectDischarge:
					found[position] = append(found[position], f.What)
				}
			}
		}
		if len(found[diagram.ToNormal]) != test.want {
			t.Errorf("%s: got %q, want %d findings", test.name, found[diagram.ToNormal], test.want)
		}
		if diff := cmp.Diff(found[diagram.ToNormal], found[diagram.ToEmergency]); diff != "" {
			t.Errorf("%s: -on normal +on emergency:\n%s", test.name, diff)
		}
	}
}

// The document that is looked at stays as it is, and what mends changes that one.
func TestPositionStays(t *testing.T) {
	s := behindSwitch(t, splitOf240, diagram.Exposure{Occupancy: diagram.Dwelling}, diagram.ToEmergency)
	s.apply(s.about(analysis.SubjectRequired)[0])
	if p, _ := s.doc.Part("switch"); p.Transfer.Position != diagram.ToEmergency {
		t.Errorf("the transfer switch stands on %q", p.Transfer.Position)
	}
	if left := s.about(analysis.SubjectRequired); len(left) > 0 {
		t.Errorf("still there after it was mended: %q", brief(left))
	}
}

// Where nothing feeds the normal side, what the generator feeds is still judged.
func TestOnlyAGenerator(t *testing.T) {
	s := newSite(t, wyeOf208).board("main", diagram.BoardData{}).wire(5, "")
	s.part(diagram.Part{ID: "set", Kind: diagram.Generator, System: wyeOf208})
	s.part(diagram.Part{ID: "switch", Kind: diagram.TransferSwitch, Transfer: diagram.TransferData{Position: diagram.ToEmergency}})
	s.wire(5, "", "set > switch:emergency", "switch:load > main")
	s.attach("main", func(p *diagram.Protector) { p.System = wyeOf480 })
	if found := s.found(analysis.SubjectVoltage); len(found) == 0 {
		t.Error("a protector for 480Y/277 on 208Y/120 behind a generator gives no finding")
	}
}
