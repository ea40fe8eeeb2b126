package circuit

// Node is a point of the network. Nodes are numbered from 1; 0 is Earth.
type Node int32

// Earth is the node against which all voltages stand.
const Earth Node = 0

// Network is a circuit to be solved. The zero value is an empty one.
type Network struct {
	Names      []string // by Node, of each; the first is Earth's. Unique, for people to read
	Buses      []Bus
	Lines      []Line
	Resistors  []Resistor
	Capacitors []Capacitor
	Inductors  []Inductor
	Windings   []Winding
	Sources    []Source
	Varistors  []Varistor
	Gaps       []Gap
	Diodes     []Diode
}

// AddNode adds a node and returns its number.
func (n *Network) AddNode(name string) Node {
	if len(n.Names) == 0 {
		n.Names = append(n.Names, "earth")
	}
	n.Names = append(n.Names, name)
	return Node(len(n.Names) - 1)
}

// NodeCount returns how many nodes there are, Earth aside.
func (n *Network) NodeCount() int { return max(0, len(n.Names)-1) }

// Conductor is one conductor of a bus.
type Conductor struct {
	Letter byte // 'A', 'B', 'C' for the lines, 'N' for the neutral
	Node   Node
}

// MaxConductors is how many conductors a bus or line can have, earth aside.
const MaxConductors = 4

// Bus is a place whose voltages are asked for.
type Bus struct {
	Name       string // for people; unique among the buses
	Conductors []Conductor

	// Mains is what stands on each conductor against earth besides, V: that of the
	// mains at the moment of the surge. The voltages of nodes are what the surge adds;
	// peaks are those of both together. Nil for none.
	Mains []float64
}

// MainsOf returns what stands on the conductor of a number, V; nothing on Earth.
func (b Bus) MainsOf(i int) float64 {
	if i == ToEarth || b.Mains == nil {
		return 0
	}
	return b.Mains[i]
}

// Pair is two conductors of a bus by number; Earth's number is -1.
type Pair struct{ From, To int }

// ToEarth is the number of Earth in a Pair.
const ToEarth = -1

// Pairs returns every pair of m conductors among each other and to earth:
// those to earth first, m(m+1)/2 in all.
func Pairs(m int) []Pair {
	out := make([]Pair, 0, m*(m+1)/2)
	for i := range m {
		out = append(out, Pair{i, ToEarth})
	}
	for i := range m {
		for j := i + 1; j < m; j++ {
			out = append(out, Pair{i, j})
		}
	}
	return out
}

// PairName returns the letters of a pair of conductors of the bus: "AN", "AG".
func (b Bus) PairName(p Pair) string {
	letter := func(i int) string {
		if i == ToEarth {
			return "G"
		}
		return string(b.Conductors[i].Letter)
	}
	return letter(p.From) + letter(p.To)
}

// Kind is between which kinds of conductor a voltage stands.
type Kind int

// The kinds, in the order in which they are listed.
const (
	LineNeutral Kind = iota
	LineEarth
	NeutralEarth
	LineLine
	KindCount = 4
)

// String returns the trade's short form: L-N, L-G, N-G or L-L.
func (k Kind) String() string {
	if k < 0 || k >= KindCount {
		return "mode ?"
	}
	return [KindCount]string{"L-N", "L-G", "N-G", "L-L"}[k]
}

// Kind returns which kind a pair of conductors of the bus is.
func (b Bus) Kind(p Pair) Kind {
	neutral := func(i int) bool { return i != ToEarth && b.Conductors[i].Letter == 'N' }
	switch {
	case p.To == ToEarth && neutral(p.From):
		return NeutralEarth
	case p.To == ToEarth:
		return LineEarth
	case neutral(p.From) || neutral(p.To):
		return LineNeutral
	}
	return LineLine
}
