package org.holdtrace.desk.classroom;

import java.util.List;

/** A source whose time passes only where a test lets it. */
record Still(Source source) implements Source {
    @Override
    public List<Lane> lanes() {
        return source.lanes();
    }

    @Override
    public String title() {
        return source.title();
    }

    @Override
    public List<Key> keys() {
        return source.keys();
    }

    @Override
    public void begin(Runnable changed) {}

    @Override
    public void close() {
        source.close();
    }
}
