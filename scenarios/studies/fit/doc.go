// Package fit finds how fast water moves in a strand from its masses as it dries, or takes up water, in known air.
//
// Each weighing is that of a strand of dry mass M and mean content C at the time t after it came into the air, on a scale that may drift:
//
//	m = M (1 + C(t; D, C₀, β)) + d t.
//
// C is marched as everywhere else (diffusion.March.RunLengths, a zone with a duration). Unknown are the diffusivity without water, at the temperature at which
// it hangs together with nothing else; with two temperatures or more the activation energy; beta where it is asked for, or where the weighings tell
// it better than the library does; the content at the start, the dry mass and the drift where they are not given. What is not fitted is that of the
// material. The water in the coil is that of a single strand in the air of the run: what shields the inner turns, or how long a thick coil takes to be warm, is not in
// the model, and shows as a lack of fit if it is much.
//
// How parameters are found from readings that a display rounds, and the range of each, is package estimation's.
package fit
