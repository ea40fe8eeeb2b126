package extract

import (
	"context"
	"fmt"

	"clampline/analysis"
	"clampline/analysis/circuit"
	"clampline/analysis/protector"
	"clampline/analysis/waveform"
	"clampline/diagram"
)

// Models holds a calibrated protector for each nameplate.
type Models map[protector.Nameplate]*protector.Model

// Circuit is the circuit of one surge case, with the way back to the records.
type Circuit struct {
	Network     *circuit.Network
	Step        float64               // s, that the circuit was made for
	Duration    float64               // s, after which nothing more is to come as a rule
	Longest     float64               // s, to which to go on where a voltage is highest late: twice the time of the wave
	Buses       map[diagram.End]int   // the number of the bus at each terminal that the surge reaches
	Runs        map[diagram.ID]Run    // of every feeder that the surge reaches
	Protectors  []Installed           // in the order of the ids
	Assumptions []analysis.Assumption // in the order in which they were met

	Unstated []diagram.ID // loads in it of which nothing says what a surge meets there
	Filtered bool         // these are input filters; else open
}

// Run tells what became of a feeder.
type Run struct {
	From, To int  // buses; one of them stands for an open end where a switch is open
	Line     int  // among the network's lines, with end A at From; none where it is an inductance
	Open     bool // a switch at its From is open
}

// None stands for no line.
const None = -1

// Installed is a protector in the network.
type Installed struct {
	ID diagram.ID
	protector.Installed
}

// Input is what a circuit is made from.
type Input struct {
	Document *diagram.Document
	Plan     diagram.ID
	Topology *analysis.Topology // of the document
	Surge    diagram.Surge
	Models   Models  // for the nameplates of the plan
	Step     float64 // s; 0 takes what suits the wave
	Filtered bool    // take loads that are unstated as input filters, else as open

	Failed map[diagram.ID]bool // protectors that the surge destroys: they are left out
	Vary   *Vary               // how far things lie off what the sheet says; nil for not at all
}

// Network makes the circuit of a surge case. An error says that the surge
// cannot arrive where it should, and names the part.
// It stops where the context ends, with its error.
func Network(ctx context.Context, in Input) (*Circuit, error) {
	x := newExtractor(in)
	x.ctx = ctx
	if err := x.reach(); err != nil {
		return nil, err
	}
	for _, add := range []func(){
		x.addBuses, x.addTransformers, x.addTransfers, x.addFeeders, x.addSources, x.addBonds, x.addLoads, x.addProtectors, x.addStray,
	} {
		if err := ctx.Err(); err != nil {
			return nil, err
		}
		add()
	}
	if err := ctx.Err(); err != nil { // one of them may have ended early
		return nil, err
	}
	if err := x.addSurge(); err != nil {
		return nil, err
	}
	if err := x.wait(); err != nil {
		return nil, err
	}
	if err := x.out.Network.Validate(); err != nil {
		return nil, fmt.Errorf("the circuit of the sheet is not sound: %w", err)
	}
	return x.out, nil
}

// extractor is the work in hand.
type extractor struct {
	Input
	ctx       context.Context // of the work; what goes over all parts or feeders stops where it ends
	out       *Circuit
	net       *circuit.Network
	timing    timing
	tone      float64 // Hz, that stands for the surge where resistance is concerned
	places    []place // by number
	start     int     // the place at which the surge arrives
	at        map[diagram.End]int
	names     map[string]int
	told      map[analysis.Assumption]bool
	joined    []int      // by place: the cluster that it is in, as a set
	members   []int      // by place: how many places its set has
	crossings []crossing // of the lines
}

func newExtractor(in Input) *extractor {
	out := &Circuit{Network: &circuit.Network{}, Buses: map[diagram.End]int{}, Runs: map[diagram.ID]Run{}}
	x := &extractor{
		ctx:   context.Background(),
		Input: in, out: out, net: out.Network, timing: timingOf(in.Surge.Wave), tone: waveform.ToneOf(string(in.Surge.Wave)),
		at: map[diagram.End]int{}, names: map[string]int{}, told: map[analysis.Assumption]bool{},
	}
	switch {
	case in.Step > 0:
		x.timing.step = in.Step
	case x.hasGaps():
		x.timing.step /= 2
	}
	out.Step, out.Filtered = x.timing.step, in.Filtered
	return x
}
