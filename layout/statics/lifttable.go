package statics

// entry is one line of a printed table.
type entry struct{ at, factor float64 }

type liftTables struct{ horizontal, vertical, travel, angle []entry }

// printed gives tables 1 to 4 of the Applications Manual as printed. They are not
// all the formula rounded: 10/23 is 0.435 and the table says 0.44.
func printed(s System) liftTables {
	angle := []entry{{0, 1}, {15, .95}, {30, .90}, {45, .86}, {60, .81}, {75, .76}, {90, .71}, {105, .66}, {120, .62}, {135, .57}}
	if s == Customary {
		return liftTables{
			horizontal: []entry{{10, 1}, {11, .91}, {12, .83}, {13, .77}, {14, .71}, {15, .67}, {16, .63}, {17, .59},
				{18, .56}, {19, .53}, {20, .50}, {21, .48}, {22, .46}, {23, .44}, {24, .42}, {25, .40}},
			vertical: []entry{{0, .78}, {5, .81}, {10, .85}, {15, .89}, {20, .93}, {25, .96}, {30, 1}, {35, .96},
				{40, .93}, {45, .89}, {50, .85}, {55, .81}, {60, .78}, {65, .74}, {70, .70}},
			travel: []entry{{10, 1}, {15, .94}, {20, .91}, {25, .89}, {30, .88}, {35, .87}, {40, .87}, {45, .86},
				{50, .86}, {55, .85}, {60, .85}, {70, .85}},
			angle: angle,
		}
	}
	return liftTables{
		horizontal: []entry{{25, 1}, {28, .89}, {30, .83}, {32, .78}, {34, .74}, {36, .69}, {38, .66}, {40, .63}, {42, .60},
			{44, .57}, {46, .54}, {48, .52}, {50, .50}, {52, .48}, {54, .46}, {56, .45}, {58, .43}, {60, .42}, {63, .40}},
		vertical: []entry{{0, .78}, {10, .81}, {20, .84}, {30, .87}, {40, .90}, {50, .93}, {60, .96}, {70, .99}, {80, .99},
			{90, .96}, {100, .93}, {110, .90}, {120, .87}, {130, .84}, {140, .81}, {150, .78}, {160, .75}, {170, .72}, {175, .70}},
		travel: []entry{{25, 1}, {40, .93}, {55, .90}, {70, .88}, {85, .87}, {100, .87}, {115, .86}, {130, .86}, {145, .85},
			{160, .85}, {175, .85}},
		angle: angle,
	}
}

// rate is a line of table 5: the factor for up to 1, 2 and 8 hours, with the
// hands below the ideal height and at or above it.
type rate struct{ perMinute, low1, high1, low2, high2, low8, high8 float64 }

// frequency is the factor of table 5, with straight lines between its lines:
// there is no formula. Beyond 15 a minute or 8 hours nothing should be lifted.
func frequency(perMinute, hours float64, high bool) float64 {
	table := []rate{
		{0.2, 1, 1, .95, .95, .85, .85},
		{0.5, .97, .97, .92, .92, .81, .81},
		{1, .94, .94, .88, .88, .75, .75},
		{2, .91, .91, .84, .84, .65, .65},
		{3, .88, .88, .79, .79, .55, .55},
		{4, .84, .84, .72, .72, .45, .45},
		{5, .80, .80, .60, .60, .35, .35},
		{6, .75, .75, .50, .50, .27, .27},
		{7, .70, .70, .42, .42, .22, .22},
		{8, .60, .60, .35, .35, .18, .18},
		{9, .52, .52, .30, .30, 0, .15},
		{10, .45, .45, .26, .26, 0, .13},
		{11, .41, .41, 0, .23, 0, 0},
		{12, .37, .37, 0, .21, 0, 0},
		{13, 0, .34, 0, 0, 0, 0},
		{14, 0, .31, 0, 0, 0, 0},
		{15, 0, .28, 0, 0, 0, 0},
	}
	for i, r := range table {
		if perMinute > r.perMinute {
			continue
		}
		to := r.factor(hours, high)
		if i == 0 {
			return to
		}
		before := table[i-1]
		from := before.factor(hours, high)
		return from + (to-from)*(perMinute-before.perMinute)/(r.perMinute-before.perMinute)
	}
	return 0
}

func (r rate) factor(hours float64, high bool) float64 {
	switch {
	case hours <= 1 && high:
		return r.high1
	case hours <= 1:
		return r.low1
	case hours <= 2 && high:
		return r.high2
	case hours <= 2:
		return r.low2
	case hours <= 8 && high:
		return r.high8
	case hours <= 8:
		return r.low8
	}
	return 0
}
