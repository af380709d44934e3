// Package rest tells how long a loose strand at rest in one air takes until its mean
// content passes a limit, drying or taking up water.
//
// The strand is marched as one that runs, at a millimetre a second, through a zone as
// long as the time asks for. One march through rising times brackets the first that passes the
// limit, and package root narrows it. What the strand has been through before, the storage of its
// model, counts: a wet skin dries sooner than a strand that is wet throughout.
//
// Beside the time at the medians of all that is in doubt stands that from which on the strand is dry nine times in ten, or until
// which it still is: a time at rest has the odds of a strand that ran so long.
//
// Left out: a wound spool, whose inner layers are shielded and which takes longer
// both ways; air that the strand changes; doubt about the state of the air.
package rest
