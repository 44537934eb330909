package org.holdtrace.judge;

import java.util.ArrayList;
import java.util.Collection;
import java.util.HashSet;
import java.util.List;
import java.util.Set;

/**
 * Nodes, the elements between them and the cylinders.
 *
 * @param title what circuit it is, in words
 * @param nodes all nodes but {@link Node#TANK} and {@link Node#OUTSIDE}
 * @param elements all elements, in the order of the findings
 * @param cylinders all cylinders
 */
public record Circuit(String title, List<Node> nodes, List<Element> elements, List<Cylinder> cylinders) {
    public Circuit {
        nodes = List.copyOf(nodes);
        elements = List.copyOf(elements);
        cylinders = List.copyOf(cylinders);
    }

    /** The element of that name; throws where there is none. */
    public Element element(String name) {
        return elements.stream()
                .filter(element -> element.name().equals(name))
                .findFirst()
                .orElseThrow(() -> new IllegalArgumentException("no element \"" + name + "\""));
    }

    /** The node of that name; throws where there is none. */
    public Node node(String name) {
        return nodes.stream()
                .filter(node -> node.name().equals(name))
                .findFirst()
                .orElseThrow(() -> new IllegalArgumentException("no node \"" + name + "\""));
    }

    /** The cylinder of that name; throws where there is none. */
    public Cylinder cylinder(String name) {
        return cylinders.stream()
                .filter(cylinder -> cylinder.name().equals(name))
                .findFirst()
                .orElseThrow(() -> new IllegalArgumentException("no cylinder \"" + name + "\""));
    }

    /** {@code node} and all nodes that get its pressure: through lines, and through checks that open towards them. */
    public Set<String> joinedTo(String node) {
        return reached(node, true, List.of());
    }

    /** The same with all lines off, and with the elements of these names taken out and plugged. */
    public Set<String> opensInto(String node, Collection<String> blanked) {
        return reached(node, false, blanked);
    }

    private Set<String> reached(String node, boolean lines, Collection<String> blanked) {
        Set<String> joined = new HashSet<>(Set.of(node));
        boolean grew = true;
        while (grew) {
            grew = false;
            for (Element element : elements) {
                boolean line = lines && element.isLine();
                boolean check = element.kind().opensTowardsFrom() && !blanked.contains(element.name());
                if (((line || check) && joined.contains(element.to()) && joined.add(element.from()))
                        || (line && joined.contains(element.from()) && joined.add(element.to()))) {
                    grew = true;
                }
            }
        }
        joined.removeIf(Node::isLow);
        return joined;
    }

    /**
     * Elements whose leak can let the actuator drift: those at the nodes that carry the load. A piston seal is among them;
     * how far it alone can move a rod is another matter ({@link DriftJudge}).
     */
    public List<Element> pathOf(Complaint complaint) {
        Set<String> loaded = joinedTo(complaint.loadNode(cylinder(complaint.actuator())));
        List<Element> path = new ArrayList<>();
        for (Element element : elements) {
            if (loaded.contains(element.from()) || loaded.contains(element.to())) {
                path.add(element);
            }
        }
        return path;
    }
}
