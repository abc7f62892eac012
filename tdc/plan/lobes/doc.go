// Package lobes says where to read a cam lobe, in which order, and what that will reach.
//
// An event is the straight line between the two readings that straddle its lift, so two
// a flank tell it as well as four; what more there is to learn, unlike flanks, missing
// lift, a mistyped row, lies higher up. A plan is judged by measuring lifts without error
// of a lobe as its card has it, with the measure that its readings will have.
package lobes
