"""Plans, sections and pictures: pools, where light falls, holes, sections through the stage, an overview."""
