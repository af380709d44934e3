// Package machine tells what a dryer takes that leads a strand through its chambers: whether the path fits, which power its heaters need and how soon they are warm, what water its
// air brings beside that of the strand, how long its desiccant lasts, how hard the strand has to be pulled, what stands in the heat when the feed stops, and what it costs.
//
// What is physics of its own stands in the packages below: how a strand is led ([strandry/diffusion/machine/shape]), heat ([strandry/diffusion/machine/heat]), moist air
// that flows ([strandry/diffusion/machine/airstream]), desiccants ([strandry/diffusion/machine/desiccant]) and pull ([strandry/diffusion/machine/pull]). Here they meet the
// design and what a march has found of it. All is in SI units. What is not stated is not told: a field of its own, or a zero that says so.
package machine
