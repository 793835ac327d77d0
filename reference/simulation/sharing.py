"""Sharing the room of each line among charge points: the rules of the page's eighth step."""


def share_room(room_a, points, rule, least_a, turn):
    """Share of each point: 0, or from the least offer to its rating."""
    room_a = [max(0.0, room) for room in room_a]
    asking = [index for index, point in enumerate(points) if point.is_asking]
    shares = [0.0] * len(points)
    if not asking:
        return shares
    if rule == "first-come":
        left_a = list(room_a)
        for index in sorted(asking, key=lambda index: points[index].arrival):
            lines = points[index].lines_in_use()
            share_a = min(points[index].rated_a, *(left_a[line] for line in lines))
            if share_a >= least_a:
                shares[index] = share_a
                for line in lines:
                    left_a[line] -= share_a
        return shares

    divide = {"equal": divide_equally, "max-min": divide_max_min}[rule]
    shares = divide(room_a, points, asking)
    if all(shares[index] >= least_a for index in asking):
        return shares
    first = turn % len(asking)
    left_a, admitted = list(room_a), []
    for index in asking[first:] + asking[:first]:
        lines = points[index].lines_in_use()
        if all(left_a[line] >= least_a for line in lines):
            admitted.append(index)
            for line in lines:
                left_a[line] -= least_a
    return divide(room_a, points, admitted)


def divide_equally(room_a, points, among):
    shares = [0.0] * len(points)
    for index in among:
        each_a = [
            room_a[line] / sum(line in points[other].lines_in_use() for other in among)
            for line in points[index].lines_in_use()
        ]
        shares[index] = min(points[index].rated_a, *each_a)
    return shares


def divide_max_min(room_a, points, among):
    """All rise together until a line is full or a point has its most; then the others go on."""
    shares, rising = [0.0] * len(points), set(among)
    left_a = list(room_a)
    while rising:
        rise_a = {index: points[index].rated_a - shares[index] for index in rising}
        for line in range(len(left_a)):
            on_line = [index for index in rising if line in points[index].lines_in_use()]
            for index in on_line:
                rise_a[index] = min(rise_a[index], left_a[line] / len(on_line))
        least_a = min(rise_a.values())
        for index in rising:
            shares[index] += least_a
            for line in points[index].lines_in_use():
                left_a[line] -= least_a
        # Whatever set the rise has stopped, so the loop ends.
        rising -= {index for index in rising if rise_a[index] <= least_a}
    return shares
