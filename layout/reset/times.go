package reset

import (
	"setwright/layout/list"
	"setwright/layout/parts"
)

// Handling times in seconds: a house rule, rounded estimates for people who have
// done it before (common practice; no published source). They weigh one way to
// reset a unit against another and share out the work; they promise no finishing
// time. Putting up a piece takes what list.Seconds says.
const (
	slideTime  = 5  // a piece along its wire or groove, with what it carries
	fetchTime  = 10 // a piece from stock to the unit, its share of a cart
	returnTime = 10 // a piece back to stock

	offTime   = 4 // a facing is begun to be taken off, and
	offEach   = 1 // each unit of it laid on the cart
	onTime    = 4 // a facing is begun to be put on, and
	onEach    = 2 // each unit of it set up and faced
	nudgeTime = 4 // a facing along what carries it
	stockEach = 1 // a unit of goods from stock or back to it
)

// upTime is the time to put up one piece.
func upTime(p *parts.Part) int { return list.Seconds(p) }

// downTime is the time to take down one piece: half of that to put it up, for
// nothing has to be measured.
func downTime(p *parts.Part) int { return (upTime(p) + 1) / 2 }

// offSeconds and onSeconds are the time to take off, or put on, a whole facing of
// so many units.
func offSeconds(units int) int { return offTime + units*offEach }

func onSeconds(units int) int { return onTime + units*onEach }

// refill is the time to bring a facing that is left on its piece from so many
// units to so many others.
func refill(from, to int) int {
	if to < from {
		return (from - to) * offEach
	}
	return (to - from) * onEach
}
