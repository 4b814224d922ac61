package solve

import "slices"

// twins sorts the rows into classes of rows that are alike, chains apart: of the same
// room and load, and with the same options. It gives the rows of every class,
// ascending.
func (s *allotter) twins() [][]int {
	var classes [][]int
	var keys [][]int64
	for r, row := range s.rows {
		key := []int64{row.Room, row.Load}
		for _, g := range s.groups[r] {
			for _, o := range s.options[g.from:g.to] {
				key = append(key, int64(o.product), o.width, o.weight, o.value)
			}
		}
		at := slices.IndexFunc(keys, func(k []int64) bool { return slices.Equal(k, key) })
		if at < 0 {
			at = len(keys)
			keys, classes = append(keys, key), append(classes, nil)
		}
		classes[at] = append(classes[at], r)
	}
	return classes
}

// pool shares what is left over in rows that are alike evenly among them. Products
// that may choose among such rows at one price all choose the first: moved each by
// its own, prices of rows that are alike would chase one another, while at the lowest
// bound they may as well be the same.
func (s *allotter) pool(m *market) {
	for _, class := range s.classes {
		if len(class) == 1 {
			continue
		}
		var room, load int64
		for _, r := range class {
			room, load = room+m.room[r], load+m.load[r]
		}
		for _, r := range class {
			m.room[r], m.load[r] = room/int64(len(class)), load/int64(len(class))
		}
	}
}
