// Package extract makes the circuit that a surge meets in a building: document,
// plan and surge case to a circuit.Network, with the way back to the records.
//
// The voltages of a bus stand against its own earth bar. A feeder is a
// travelling-wave line of the conductors that its two ends share, with the
// earth conductor or the metal round it as return. What the sheet does not say
// is assumed, and each assumption is told with the record that it is about.
//
// What counts as what:
//
//   - A feeder shorter than what a wave travels in a step is an inductance; a
//     cluster of buses that are joined so is kept small, and beyond that such a
//     feeder is a line of one step with the same inductance.
//   - A feeder with an open switch hangs on its far end.
//   - A transfer switch joins its selected side to its load side, and the
//     neutrals of all three unless it switches them.
//   - A load is open where the sheet says so: it takes nothing, and the wave is
//     thrown back at it. So is a motor without a drive. Where the sheet says nothing,
//     a circuit has all such loads open or, as Input.Filtered asks, all as input
//     filters.
//   - A source that the surge does not come from is its short-circuit
//     inductance; one that it comes from is the generator of the surge alone.
//   - Neutral and earth are joined where a board says so; where none in a zone
//     does and the earthing holds the neutral, at its beginning.
//
// Only what the surge can reach through closed switches and transformers is in
// the circuit.
package extract
