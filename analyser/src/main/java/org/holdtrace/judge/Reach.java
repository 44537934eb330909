package org.holdtrace.judge;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import org.jgrapht.Graph;
import org.jgrapht.alg.connectivity.BiconnectivityInspector;
import org.jgrapht.graph.Multigraph;

/**
 * What a hold test can implicate: the elements between the pressurised node and low pressure.
 *
 * @param direct elements with pressure on one side and none on the other; the measured leak is the sum of theirs
 * @param together elements that leak only one through another, across a node that is shut off: such a test clears none of
 *     them, and while that node fills up it may feign a leak
 * @param undeclared nodes next to the pressurised oil of which the test does not say whether they are open or blocked
 */
public record Reach(List<Element> direct, List<Element> together, Set<String> undeclared) {
    private static final String HIGH = "+";
    private static final String LOW = "-";

    public Reach {
        direct = List.copyOf(direct);
        together = List.copyOf(together);
        undeclared = Set.copyOf(undeclared);
    }

    /** One edge of the graph: an element, or the edge that closes the circle (null). */
    private record Edge(Element element) {
        @Override
        public boolean equals(Object other) {
            return this == other;
        }

        @Override
        public int hashCode() {
            return System.identityHashCode(this);
        }
    }

    /** What {@code test} implicates in {@code circuit}. */
    public static Reach of(Circuit circuit, CaseTest test) {
        Set<String> high = new HashSet<>(test.joined());
        high.add(test.pressurised());
        Graph<String, Edge> graph = new Multigraph<>(null, null, false);
        graph.addVertex(HIGH);
        graph.addVertex(LOW);
        List<Element> direct = new ArrayList<>();
        Set<String> undeclared = new LinkedHashSet<>();
        for (Element element : circuit.elements()) {
            if (test.blanked().contains(element.name())) {
                continue;
            }
            String from = place(element.from(), high, test);
            String to = place(element.to(), high, test);
            if (element.isLine()) {
                if (from.equals(HIGH) && to.equals(HIGH)) {
                    direct.add(element); // full of pressed oil, and what it loses is lost
                }
                continue; // any other line is off
            }
            if (from.equals(to)) {
                continue;
            }
            if ((from.equals(HIGH) && to.equals(LOW)) || (from.equals(LOW) && to.equals(HIGH))) {
                direct.add(element);
                continue;
            }
            if (from.equals(HIGH) || to.equals(HIGH)) {
                String beyond = from.equals(HIGH) ? element.to() : element.from();
                if (!test.blocked().contains(beyond)) {
                    undeclared.add(beyond);
                }
            }
            graph.addVertex(from);
            graph.addVertex(to);
            graph.addEdge(from, to, new Edge(element));
        }
        return new Reach(direct, together(graph, circuit), undeclared);
    }

    /**
     * Elements on a simple way from high to low through other nodes: those in one biconnected block with an edge that
     * joins high and low directly.
     */
    private static List<Element> together(Graph<String, Edge> graph, Circuit circuit) {
        Edge closing = new Edge(null);
        graph.addEdge(HIGH, LOW, closing);
        Set<Element> found = new HashSet<>();
        for (Graph<String, Edge> block : new BiconnectivityInspector<>(graph).getBlocks()) {
            if (block.containsEdge(closing)) {
                for (Edge edge : block.edgeSet()) {
                    if (edge.element() != null) {
                        found.add(edge.element());
                    }
                }
            }
        }
        return circuit.elements().stream().filter(found::contains).toList();
    }

    private static String place(String node, Set<String> high, CaseTest test) {
        if (high.contains(node)) {
            return HIGH;
        }
        return Node.isLow(node) || test.open().contains(node) ? LOW : node;
    }
}
